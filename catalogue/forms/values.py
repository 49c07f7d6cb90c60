"""Between the nested values of a row and the flat fields of a card.

A field's name is its path, steps apart by colons; the rows of a grid are numbered: offers:0:cost.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from catalogue.calc.rows import CatalogueRows
from catalogue.forms.inputs import Card, Grid, Group, Input, Item

MAPS = frozenset({"count", "hours", "drivers", "pieces", "lives"})
"""Fields that are maps: what is blank there is absent, not empty."""


def at(dump: Mapping[str, Any], path: str) -> Any:
    """The value at a path; None where the way there is absent."""
    value: Any = dump
    for step in path.split(":"):
        if not isinstance(value, Mapping):
            return None
        value = value.get(step)
    return value


def put(dump: dict[str, Any], path: str, value: Any) -> None:
    """Sets the value at a path, making the way there."""
    *way, last = path.split(":")
    for step in way:
        dump = dump.setdefault(step, {})
    dump[last] = value


def grid_rows(grid: Grid, dump: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The rows of a grid as they lie in a row's dump."""
    value = at(dump, grid.path)
    if not value:
        return []
    first, *rest = (column.path for column in grid.columns)
    if grid.lies == "map":
        return [{first: key, rest[0]: words} for key, words in value.items()]
    if grid.lies == "map_by_type":
        return [
            {first: kind, rest[0]: what, rest[1]: words}
            for kind, changes in value.items()
            for what, words in changes.items()
        ]
    return [dict(line) for line in value]


def grid_value(grid: Grid, lines: Iterable[Mapping[str, Any]]) -> Any:
    """What the rows of a grid are in a row's dump."""
    first, *rest = (column.path for column in grid.columns)
    if grid.lies == "map":
        return {line[first]: line[rest[0]] for line in lines}
    if grid.lies == "map_by_type":
        found: dict[str, dict[str, Any]] = {}
        for line in lines:
            found.setdefault(line[first], {})[line[rest[0]]] = line[rest[1]]
        return found
    return [dict(line) for line in lines]


def inputs_of(item: Item, rows: CatalogueRows) -> tuple[Input, ...]:
    """The single inputs of an item; a grid's rows are counted elsewhere."""
    if isinstance(item, Input):
        return (item,)
    return item.spread(rows) if isinstance(item, Group) else ()


def without_blanks(card: Card, dump: dict[str, Any]) -> dict[str, Any]:
    """The typed values with what was left blank made absent, where absent is what blank means."""
    for field in MAPS & set(dump):
        if isinstance(dump[field], dict):
            dump[field] = {key: value for key, value in dump[field].items() if not is_blank(value)}
    for path in sorted(card.optional, key=lambda path: -path.count(":")):
        if is_blank(at(dump, path)):
            _absent(dump, path)
    return dump


def _absent(dump: dict[str, Any], path: str) -> None:
    if path.split(":")[0] in MAPS:
        field, key = path.split(":")
        dump.get(field, {}).pop(key, None)
    else:
        put(dump, path, None)


def is_blank(value: Any) -> bool:
    """Whether nothing at all was typed there."""
    if isinstance(value, Mapping):
        return all(is_blank(part) for part in value.values())
    return value is None or value == "" or value is False or (isinstance(value, list | tuple) and not value)
