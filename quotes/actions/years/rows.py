"""Rows as both databases take them: plain texts, whole numbers and bytes, thousands in one go."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Sequence
from datetime import UTC, date, datetime
from decimal import Decimal
from itertools import islice
from typing import Any
from uuid import UUID

from django.core.management.color import no_style
from django.db import connection, models
from django.db.models import Max

Cell = str | int | float | bytes | None
AT_ONCE = 2_000


def plain_cell(value: Any) -> Cell:
    """A value of a field as text where neither database would take it as it is."""
    if value is None or isinstance(value, str | bytes | float):
        return value
    if isinstance(value, memoryview):
        return bytes(value)
    if isinstance(value, bool | int):
        return int(value)
    if isinstance(value, datetime):
        return value.astimezone(UTC).replace(tzinfo=None).isoformat(sep=" ")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, UUID):
        return value.hex
    return f"{value:f}" if isinstance(value, Decimal) else canonical(value)


def canonical(value: Any) -> str:
    """JSON with sorted keys and no blanks: what fingerprints are taken of."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


class Rows:
    """Collects rows of many tables and writes them; every key is given out here."""

    def __init__(self) -> None:
        self.next_key: dict[type[models.Model], int] = {}
        self._rows: defaultdict[type[models.Model], list[Sequence[Cell]]] = defaultdict(list)

    def key(self, model: type[models.Model], many: int = 1) -> int:
        """The first of so many keys that no row has."""
        if model not in self.next_key:
            last = model._default_manager.aggregate(last=Max("pk"))["last"]
            self.next_key[model] = (last or 0) + 1
        first = self.next_key[model]
        self.next_key[model] += many
        return first

    def add(self, model: type[models.Model], cells: Sequence[Cell]) -> None:
        """One row, its cells in the order of the model's columns."""
        self._rows[model].append(cells)

    def write(self) -> None:
        """All that was added. Inside a transaction: keys that lead nowhere are found at its end."""
        write = _copy if connection.vendor == "postgresql" else _insert
        for model, rows in self._rows.items():
            write(model, rows)
        self._rows.clear()

    def finish(self) -> None:
        """Let the next row that somebody adds take the next key; and look at what there is of each value."""
        statements = connection.ops.sequence_reset_sql(no_style(), list(self.next_key))
        analyse = ["ANALYZE"] if connection.vendor == "postgresql" else ["PRAGMA optimize", "ANALYZE"]
        with connection.cursor() as cursor:
            for statement in [*statements, *analyse]:
                cursor.execute(statement)


def columns_of(model: type[models.Model]) -> list[str]:
    return [str(field.column) for field in model._meta.concrete_fields]


def _insert(model: type[models.Model], rows: Sequence[Sequence[Cell]]) -> None:
    columns = columns_of(model)
    names = ", ".join(map(connection.ops.quote_name, columns))
    places = ", ".join(["%s"] * len(columns))
    statement = f"INSERT INTO {model._meta.db_table} ({names}) VALUES ({places})"  # Our names. # noqa: S608
    left = iter(rows)
    with connection.cursor() as cursor:
        while some := list(islice(left, AT_ONCE)):
            cursor.executemany(statement, some)


def _copy(model: type[models.Model], rows: Sequence[Sequence[Cell]]) -> None:
    names = ", ".join(map(connection.ops.quote_name, columns_of(model)))
    with (
        connection.cursor() as cursor,
        cursor.copy(f"COPY {model._meta.db_table} ({names}) FROM STDIN") as stream,
    ):
        for row in rows:
            stream.write_row(row)
