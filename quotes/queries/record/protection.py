"""The triggers by which the database itself keeps issued rows: that every one of them stands."""

from __future__ import annotations

from collections.abc import Iterator

from django.db import connection

from quotes.calc.record.fault import RecordFault
from quotes.models import audit_triggers
from quotes.models.frozen_tables import ALL, ONCE, STAY

CHAINED = {
    audit_triggers.ENTRY: (audit_triggers.FOLLOWS,),
    audit_triggers.WORDS: (audit_triggers.SHORTER,),
    audit_triggers.HEAD: (audit_triggers.FORWARD,),
}
STANDING = {
    "sqlite": "SELECT name FROM sqlite_master WHERE type = 'trigger'",
    "postgresql": "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal AND tgenabled <> 'D'",
}


def protected_tables() -> Iterator[tuple[RecordFault, ...]]:
    """Somebody may have taken one off to change a row, or a migration that rebuilt a table."""
    with connection.cursor() as cursor:
        cursor.execute(STANDING[connection.vendor])
        standing = {name for (name,) in cursor.fetchall()}
    for table in ALL:
        missing = [name for name in _names(table) if name not in standing]
        yield tuple(RecordFault(f"Table {table}", "its triggers", name, "no such one") for name in missing)


def _names(table: str) -> tuple[str, ...]:
    ends = ["kept"] if table in STAY else ["frozen", "kept"]
    once = (name for of, name, _, _ in ONCE if of == table)
    return (*(f"{table}_{end}" for end in (*ends, *once)), *CHAINED.get(table, ()))
