"""Sentences and figures in the reader's language.

The sums write English. Where the site runs, `speak_through` has handed in what turns a sentence into the
language of who reads it; without it, as in a test of the sums, English stays. A sentence is given whole, with
its places in braces: another language puts them elsewhere.

    >>> say("{count} of {all}", count=3, all=20)
    '3 of 20'
    >>> say_count("{count} hour", "{count} hours", 1)
    '1 hour'
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


def _as_written(text: str) -> str:
    return text


def _english_count(one: str, many: str, count: int) -> str:
    return one if count == 1 else many


def _english_figure(value: float, decimals: int) -> str:
    return f"{value:,.{decimals}f}"


@dataclass(slots=True)
class _Speech:
    text: Callable[[str], str] = _as_written
    count: Callable[[str, str, int], str] = _english_count
    figure: Callable[[float, int], str] = _english_figure


_speech = _Speech()


def speak_through(
    text: Callable[[str], str],
    count: Callable[[str, str, int], str],
    figure: Callable[[float, int], str],
) -> None:
    """Say everything from now on through these: a text, a text by count, a figure with its decimals."""
    _speech.text, _speech.count, _speech.figure = text, count, figure


def say(text: str, /, **places: object) -> str:
    """The sentence in the reader's language. KeyError where it names a place that is not given."""
    said = _speech.text(text)
    return said.format(**places) if places else said


def to_say(text: str) -> str:
    """The same text. It marks what stands in a table and is said later, as `say(TABLE[key])`."""
    return text


def say_count(one: str, many: str, count: int, /, **places: object) -> str:
    """The sentence for that many, which stands at `{count}`."""
    return _speech.count(one, many, count).format(count=count, **places)


def say_figure(value: float, decimals: int) -> str:
    """A number with its decimals and thousands as the reader writes them."""
    return _speech.figure(value, decimals)
