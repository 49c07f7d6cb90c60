"""Rows laid out in the lines of their sheets, and lines put together to rows again."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from catalogue.calc.rows.kinds import Row
from catalogue.queries.book.layout import PLACES, SheetLayout, sheets_of
from catalogue.queries.shapes import SHAPES, to_columns, to_dump
from catalogue.queries.shapes.shape import Dump, Line, merge


def lines_of(sheet: SheetLayout, rows: Iterable[Row]) -> list[Line]:
    """What a sheet says of these rows of its kind."""
    shape = SHAPES[sheet.kind]
    if sheet.split is None:
        columns = (to_columns(shape, row) for row in rows)
        return [{one.key: line[one.key] for one in sheet.columns} for line in columns]
    owner = sheet.owner.key
    return [
        {**dict.fromkeys(column.key for column in sheet.columns), owner: shape.code_of(row), **line}
        for row in rows
        for line in sheet.split(row.model_dump())
    ]


def dump_of(kind: str, main: Line, lines: Mapping[str, Sequence[Line]]) -> Dump:
    """The nested values of one entry from its line and, by sheet, the lines that belong to it."""
    shape = SHAPES[kind]
    dump = to_dump(shape, {**dict.fromkeys(shape.columns), **main})
    for sheet in sheets_of(kind):
        if sheet.join is not None:
            merge(dump, sheet.join(in_order(sheet, lines.get(sheet.name, ()))))
    return dump


def in_order(sheet: SheetLayout, lines: Sequence[Line]) -> list[Line]:
    """The lines of one entry as the table would give them back, their places counted anew."""
    ordered = list(lines)
    for name in reversed(sheet.ordered_by):
        key = name.lstrip("-")
        ordered.sort(key=lambda line, key=key: _rank(line.get(key)), reverse=name.startswith("-"))  # type: ignore[misc]
    return _counted(sheet, ordered)


def _rank(value: Any) -> tuple[bool, Any]:
    """What is not said comes last."""
    return (value is None, 0 if value is None else value)


def _counted(sheet: SheetLayout, lines: list[Line]) -> list[Line]:
    """`way` and `condition` from nought without gaps: a line taken out must leave none."""
    keys = {column.key for column in sheet.columns}
    for key in ("way", "condition"):
        if key in keys:
            said: dict[tuple[Any, ...], list[Any]] = defaultdict(list)
            beside = [name for name in ("for_roller_rod", "role") if name in keys]
            counted = []
            for line in lines:
                group = said[tuple(line[name] for name in beside)]
                if line[key] not in group:
                    group.append(line[key])
                counted.append({**line, key: group.index(line[key])})
            lines = counted
    return lines


def kept_of(sheet: SheetLayout, line: Line) -> tuple[Any, ...]:
    """What a line says, without its place among the others."""
    return tuple(
        line.get(column.key) if column.sort != "json" else repr(line.get(column.key))
        for column in sheet.columns
        if column.key not in PLACES
    )
