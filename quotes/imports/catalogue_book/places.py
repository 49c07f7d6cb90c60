"""Values that know in which cell they stood, so that a fault of a whole row is told by its cell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any


@dataclass(frozen=True, slots=True)
class Place:
    """A cell of the workbook; no column: the whole line."""

    sheet: str
    line: int
    column: str = ""


class _Text(str):
    place: Place


class _Whole(int):
    place: Place


class _Number(float):
    place: Place


class _Decimal(Decimal):
    place: Place


PLACED: Mapping[type[Any], type[Any]] = {str: _Text, int: _Whole, float: _Number, Decimal: _Decimal}


def placed(value: Any, place: Place) -> Any:
    """The same value, which knows its place; what is neither text nor number can't."""
    kind = PLACED.get(type(value))
    if kind is None:
        return value
    knowing = kind(value)
    knowing.place = place
    return knowing


def place_in(dump: Mapping[str, Any], path: Sequence[str | int]) -> Place | None:
    """Where the value at a path of a row stood, or what stands beside it."""
    value: Any = dump
    around: list[Any] = [dump]
    for step in path:
        try:
            value = value[step if isinstance(value, Mapping) else int(step)]
        except (KeyError, IndexError, TypeError, ValueError):
            break
        around.append(value)
    else:
        if place := getattr(value, "place", None):
            return place  # type: ignore[no-any-return]
    for one in reversed(around[1:]):
        for place in _places(one):
            return Place(place.sheet, place.line)
    return None


def _places(value: Any) -> Iterator[Place]:
    if place := getattr(value, "place", None):
        yield place
    elif isinstance(value, Mapping):
        for key, each in value.items():
            yield from _places(key)
            yield from _places(each)
    elif isinstance(value, list | tuple):
        for each in value:
            yield from _places(each)
