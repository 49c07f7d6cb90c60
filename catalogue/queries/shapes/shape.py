"""How a kind of row lies in the database: which value is in which column, and which in lines of its own.

A shape is read both ways, so what is written is what is read again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db import models

from catalogue.calc.rows.kinds import Row
from catalogue.models.base import Entry

Dump = dict[str, Any]
"""A row as nested plain values."""
Line = dict[str, Any]
"""One line of a table that belongs to an entry, by column."""


@dataclass(frozen=True, slots=True)
class Lines:
    """A table of lines that belong to an entry."""

    model: type[models.Model]
    owner: str
    """The column with the entry's code."""
    columns: tuple[str, ...]
    split: Callable[[Dump], Iterable[Line]]
    """A row's lines, without owner."""
    join: Callable[[Sequence[Line]], Dump]
    """What the lines, in their order, put into the row."""


@dataclass(frozen=True, slots=True)
class Shape:
    """One kind of row, its model, and where each value lies."""

    kind: str
    model: type[Entry]
    row: type[Row]
    columns: Mapping[str, str]
    """Path in the row, by column."""
    lines: tuple[Lines, ...] = ()
    listed: frozenset[str] = frozenset()
    """Columns that hold a list of texts, one a line."""
    optional: tuple[str, ...] = ()
    """Nested values that are absent as a whole where every column of theirs is empty."""
    pack: Callable[[Dump], Line] = field(default=lambda dump: {})
    """Columns that are worked out of several values."""
    unpack: Callable[[Line], Dump] = field(default=lambda line: {})
    packed: tuple[str, ...] = ()
    """The columns that `pack` fills."""
    searched: tuple[str, ...] = ("code", "name")
    """Paths whose text a search looks at."""

    def code_of(self, row: Row) -> str:
        """The code of a row: a part's is its number."""
        return str(getattr(row, self.columns["code"]))


def same(*names: str) -> dict[str, str]:
    """Columns that are called as the row's fields are."""
    return {name: name for name in names}


def spread(prefix: str, names: Iterable[str], path: str = "") -> dict[str, str]:
    """Columns `prefix_name` for the values at `path.name`."""
    return {f"{prefix}_{name}": f"{path or prefix}.{name}" for name in names}


def band(prefix: str, path: str = "") -> dict[str, str]:
    """The three columns of a low, typical and high figure."""
    return spread(prefix, ("typical", "low", "high"), path)


def at(dump: Mapping[str, Any], path: str) -> Any:
    """The value at a dotted path; None where the way there is absent."""
    value: Any = dump
    for step in path.split("."):
        if value is None:
            return None
        value = value.get(step)
    return value


def put(dump: Dump, path: str, value: Any) -> None:
    """Sets the value at a dotted path, making the way there."""
    *way, last = path.split(".")
    for step in way:
        dump = dump.setdefault(step, {})
    dump[last] = value


def merge(dump: Dump, more: Mapping[str, Any]) -> Dump:
    """Lays `more` over `dump`, nested values into nested ones."""
    for key, value in more.items():
        if isinstance(value, dict) and isinstance(dump.get(key), dict):
            merge(dump[key], value)
        else:
            dump[key] = value
    return dump


def to_columns(shape: Shape, row: Row) -> Line:
    """What one row writes into the columns of its entry."""
    dump = row.model_dump()
    line: Line = dict(shape.pack(dump))
    for column, path in shape.columns.items():
        value = at(dump, path)
        if column in shape.listed:
            value = "\n".join(value or ())
        line[column] = _empty_as(shape.model, column) if value is None else value
    return line


def to_dump(shape: Shape, line: Mapping[str, Any]) -> Dump:
    """The nested values that the columns of one entry hold."""
    dump: Dump = {}
    for column, path in shape.columns.items():
        value = line[column]
        if column in shape.listed:
            value = [text for text in value.splitlines() if text]
        put(dump, path, value)
    for path in shape.optional:
        if _empty(at(dump, path)):
            put(dump, path, None)
    return merge(dump, shape.unpack(dict(line)))


def _empty(value: Any) -> bool:
    return all(_empty(part) for part in value.values()) if isinstance(value, dict) else value in (None, "")


def _empty_as(model: type[Entry], column: str) -> Any:
    """What a column holds where the row has nothing: its default where it can't be null."""
    found = model._meta.get_field(column)
    return found.get_default() if isinstance(found, models.Field) and not found.null else None
