"""A nested value in words: on one line, or as rows of name and words."""

from __future__ import annotations

from typing import Any

from catalogue.calc.numbers import said_figure
from catalogue.calc.said import say


def in_short(value: Any, *, inside: bool = False) -> str:
    """A nested value on one line; what stands `inside` of another keeps together by commas."""
    if value is None:
        return say("none")
    if isinstance(value, bool):
        return say("yes") if value else say("no")
    if isinstance(value, dict):
        names = {key: str(key).replace("_", " ") for key in value}
        if inside:
            return ", ".join(f"{names[key]} {in_short(part, inside=True)}" for key, part in value.items())
        return "; ".join(f"{names[key]}: {in_short(part, inside=True)}" for key, part in value.items())
    if isinstance(value, list):
        return " / ".join(in_short(part) for part in value)
    return said_figure(value) if isinstance(value, int | float) else str(value)


def outline(value: Any) -> list[tuple[str, str]]:
    """A nested value as rows of name and words: one for each entry, and for each item of a list."""
    if isinstance(value, list):
        return [row for each in value for row in _of_item(each)]
    if not isinstance(value, dict):
        return [("", in_short(value))]
    rows = []
    for key, part in value.items():
        name = _large(str(key).replace("_", " "))
        items = part if isinstance(part, list) else [part]
        rows += [(name if not place else "", in_short(item)) for place, item in enumerate(items)]
    return rows


def _of_item(value: Any) -> list[tuple[str, str]]:
    """An item of a list under the text that it begins with, which says what it is."""
    if not isinstance(value, dict) or not value:
        return [("", in_short(value))]
    (_, what), *rest = value.items()
    return [(_large(in_short(what)), in_short(dict(rest)))]


def _large(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
