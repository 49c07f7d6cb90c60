"""What a table holds, as a count and a checksum that are the same on both databases."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.apps import apps
from django.db import models

AT_ONCE = 500
AT_ONCE_OF_BYTES = 10
"""Rows with files in them, in memory at one time."""
WHOLE = 1 << 256


@dataclass(frozen=True, slots=True)
class RowsSum:
    """How many rows, and a sum of their SHA-256: in whatever order they come, it is the same."""

    rows: int
    checksum: str

    @property
    def short(self) -> str:
        return self.checksum[:16]


def tables() -> list[type[models.Model]]:
    """The model of every table of the site, by the table's name; those that join two others among them."""
    found = {
        model._meta.db_table: model
        for model in apps.get_models(include_auto_created=True)
        if model._meta.managed and not model._meta.proxy
    }
    return [model for _, model in sorted(found.items())]


def columns_of(model: type[models.Model]) -> list[models.Field[Any, Any]]:
    """Its columns in the order of the model; what the database works out for itself is not moved."""
    return [field for field in model._meta.concrete_fields if not getattr(field, "generated", False)]


def rows_of(model: type[models.Model], alias: str) -> Iterator[tuple[Any, ...]]:
    """Every row, past what a model of its own may hide or refuse."""
    fields = columns_of(model)
    names = [field.attname for field in fields]
    with_bytes = any(isinstance(field, models.BinaryField) for field in fields)
    rows: models.QuerySet[Any, Any] = models.QuerySet(model).using(alias).order_by().values_list(*names)
    return rows.iterator(chunk_size=AT_ONCE_OF_BYTES if with_bytes else AT_ONCE)


def held_by(model: type[models.Model], alias: str) -> RowsSum:
    """What stands in one table of one database."""
    count = total = 0
    for row in rows_of(model, alias):
        count += 1
        total = (total + int.from_bytes(digest(row))) % WHOLE
    return RowsSum(count, f"{total:064x}")


def digest(row: Iterable[Any]) -> bytes:
    """SHA-256 of the row's values, each as it is whatever database it came from."""
    found = hashlib.sha256()
    for value in row:
        said = plain(value)
        found.update(b"%d:" % len(said))
        found.update(said)
    return found.digest()


def plain(value: Any) -> bytes:
    """One value with its kind: the same bytes for the same value, and others for any other."""
    match value:
        case None:
            return b"-"
        case bool():
            return b"?1" if value else b"?0"
        case str():
            return b"s" + value.encode()
        case int() | Decimal():
            return b"n" + _number(Decimal(value))
        case float():
            return b"f" + repr(value).encode()
        case datetime():
            return b"t" + value.astimezone(UTC).isoformat().encode()
        case bytes() | bytearray() | memoryview():
            return b"b" + hashlib.sha256(value).digest()
        case dict() | list():
            return b"j" + json.dumps(_json(value), sort_keys=True).encode()
        case date() | time() | timedelta() | UUID():
            return b"o" + str(value).encode()
    raise TypeError(f"{type(value).__name__}: a kind of value that nothing is known of")


def _number(value: Decimal) -> bytes:
    return f"{value.normalize():f}".encode() if value else b"0"


def _json(value: Any) -> Any:
    """PostgreSQL keeps numbers by what they are worth, so 1e3, 1000.0 and 1000 are one."""
    match value:
        case dict():
            return {key: _json(one) for key, one in value.items()}
        case list():
            return [_json(one) for one in value]
        case float():
            return int(value) if value.is_integer() else value
    return value
