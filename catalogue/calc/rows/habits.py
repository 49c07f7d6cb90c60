"""Habits of the trade in words: their names, keys and texts, whatever is nested in them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from catalogue.calc.said import say
from catalogue.calc.sources import in_words, said_parts


def key_in_english(key: str) -> str:
    """A key as it is read.

    >>> key_in_english("bench_builder"), key_in_english("restocking_pct"), key_in_english("pct_of_labour")
    ('bench builder', 'restocking, %', '% of labour')
    """
    words = key.removesuffix("_pct").replace("_", " ")
    if key.startswith("pct"):
        return words.replace("pct", "%", 1)
    return f"{words}, %" if key.endswith("_pct") else words


def texts_of_habit(code: str, value: Any, names: Mapping[str, str]) -> Iterator[str]:
    """Every text of a habit that a reader meets; what `names` calls by a name of its own is none of them."""
    if code not in names:
        yield key_in_english(code)
    if isinstance(value, Mapping):
        for key, part in value.items():
            yield from texts_of_habit(key, part, names)
    elif isinstance(value, tuple | list):
        for part in value:
            yield from texts_of_habit(code, part, names)
    elif isinstance(value, str):
        yield from said_parts(value) if code == "source" else (value,)


def habit_in_words(value: Any, names: Mapping[str, str], titles: Mapping[str, str] | None = None) -> Any:
    """What is usual, its keys and texts in the language in hand; without `titles` no sources are told.

    What has no value is left out: no upper end, no deposit for that engine type.
    """
    if isinstance(value, Mapping):
        return {
            names.get(key) or say(key_in_english(key)): _told(key, part, names, titles)
            for key, part in value.items()
            if part is not None and (key != "source" or titles is not None)
        }
    if isinstance(value, list | tuple):
        return [habit_in_words(part, names, titles) for part in value]
    return say(value) if isinstance(value, str) and value else value


def _told(key: str, part: Any, names: Mapping[str, str], titles: Mapping[str, str] | None) -> Any:
    if key == "source" and isinstance(part, str):
        return in_words(part, titles or {})
    return habit_in_words(part, names, titles)
