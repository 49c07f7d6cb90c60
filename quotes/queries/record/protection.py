"""The triggers by which the database itself keeps issued rows: that every one of them stands."""

from __future__ import annotations

from collections.abc import Iterator

from django.db import connection

from quotes.calc.record.fault import RecordFault
from quotes.models.frozen_triggers import ALL, ONCE

FIRST = ("quotes_revision", "quotes_acceptance", "quotes_storedfile")
"""Tables frozen since the first of those migrations, against change only."""
STANDING = {
    "sqlite": "SELECT name FROM sqlite_master WHERE type = 'trigger'",
    "postgresql": "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal AND tgenabled <> 'D'",
}


def protected_tables() -> Iterator[tuple[RecordFault, ...]]:
    """Somebody may have taken one off to change a row, or a migration that rebuilt a table."""
    with connection.cursor() as cursor:
        cursor.execute(STANDING[connection.vendor])
        standing = {name for (name,) in cursor.fetchall()}
    for table in (*FIRST, *ALL):
        missing = [name for name in _names(table) if name not in standing]
        yield tuple(RecordFault(f"Table {table}", "its triggers", name, "no such one") for name in missing)


def _names(table: str) -> tuple[str, ...]:
    ends = ["frozen"] if table in FIRST else ["frozen", "kept"]
    return tuple(f"{table}_{end}" for end in (*ends, *(name for of, name, _, _ in ONCE if of == table)))
