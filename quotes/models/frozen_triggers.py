"""The SQL by which the database itself keeps issued rows from change and deletion.

The migration that sets the triggers uses it. So does the flush between tests on SQLite, which empties tables
by deleting rows; on PostgreSQL it does so in the role of a replica, and no trigger hears of it.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any, TypeVar

from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.backends.utils import CursorWrapper
from django.db.migrations import RunPython

from quotes.models import audit_triggers
from quotes.models.frozen_tables import ALL, BENCH, FROZEN, ONCE, THROWN_AWAY

Kept = TypeVar("Kept")
Columns = Mapping[str, frozenset[str]]
"""The columns that stand in each table at the moment."""
NO_MODELS: Any = None


def set_again(apps: object, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """For a migration: set every trigger whose table stands; SQLite drops them where it rebuilds a table.

    A migration runs when later columns do not stand yet, so it names only those that do.
    """
    connection = schema_editor.connection
    with connection.cursor() as cursor:
        columns = {table: columns_of(cursor, table) for table in _there(connection, cursor)}
    tables = columns.keys()
    for statement in _off(connection.vendor, tables):
        schema_editor.execute(statement)
    for statement in [*freeze(connection.vendor, columns), *keep(connection.vendor, tables)]:
        schema_editor.execute(statement)
    if {*audit_triggers.TABLES} <= {*tables}:
        for statement in audit_triggers.chain(connection.vendor):
            schema_editor.execute(statement)


def take_off(apps: object, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """For a migration that goes back: take every trigger off."""
    connection = schema_editor.connection
    with connection.cursor() as cursor:
        tables = _there(connection, cursor)
    for statement in _off(connection.vendor, tables):
        schema_editor.execute(statement)


class Triggers(RunPython):
    """Either of the two, as a step of a migration. It asks no model of that day, so none is put together."""

    def database_forwards(self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any) -> None:
        self.code(NO_MODELS, schema_editor)

    def database_backwards(self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any) -> None:
        assert self.reverse_code
        self.reverse_code(NO_MODELS, schema_editor)


def _off(vendor: str, tables: Collection[str]) -> list[str]:
    chained = audit_triggers.unchain(vendor) if {*audit_triggers.TABLES} <= {*tables} else []
    return [*thaw(vendor, tables), *let_go(vendor, tables), *chained]


def _there(connection: BaseDatabaseWrapper, cursor: CursorWrapper) -> set[str]:
    return {*ALL} & {*connection.introspection.table_names(cursor)}


def columns_of(cursor: CursorWrapper, table: str) -> frozenset[str]:
    """By a query for nothing: Django's own introspection takes the whole statement of the table apart."""
    cursor.execute(f"SELECT * FROM {table} LIMIT 0")  # A name of our own. # noqa: S608
    return frozenset(str(column[0]) for column in cursor.description)


def freeze(vendor: str, columns: Columns) -> list[str]:
    """Statements that set the triggers against change; `quotes_issued_for_good()` stands since 0003."""
    kept = {
        table: tuple(c for c in names if c in columns[table]) for table, names in _standing(FROZEN, columns)
    }
    kept |= {
        table: tuple(sorted(columns[table] - later - {"id"})) for table, later in _standing(BENCH, columns)
    }
    made = [_trigger(vendor, table, "frozen", _update(names)) for table, names in kept.items()]
    once = [
        _trigger(vendor, table, name, _update(names), f"WHEN ({done})")
        for table, name, names, done in ONCE
        if table in columns and columns[table].issuperset(names)
    ]
    return [*made, *once]


def _standing(of: Mapping[str, Kept], columns: Columns) -> list[tuple[str, Kept]]:
    return [(table, names) for table, names in of.items() if table in columns]


def thaw(vendor: str, tables: Collection[str] = ALL) -> list[str]:
    """Statements that take the triggers against change off."""
    dropped = [_dropped(vendor, table, "frozen") for table in tables]
    return [*dropped, *(_dropped(vendor, table, name) for table, name, _, _ in ONCE if table in tables)]


def keep(vendor: str, tables: Collection[str] = ALL) -> list[str]:
    """Statements that set the triggers against deletion."""
    return [_trigger(vendor, table, "kept", "DELETE", THROWN_AWAY.get(table, "")) for table in tables]


def let_go(vendor: str, tables: Collection[str] = ALL) -> list[str]:
    """Statements that take the triggers against deletion off."""
    return [_dropped(vendor, table, "kept") for table in tables]


def _update(columns: tuple[str, ...]) -> str:
    return "UPDATE OF " + ", ".join(f'"{column}"' for column in columns)


def _trigger(vendor: str, table: str, name: str, event: str, when: str = "") -> str:
    head = f"CREATE TRIGGER {table}_{name} BEFORE {event} ON {table} FOR EACH ROW {when}"
    if vendor == "postgresql":
        return f"{head} EXECUTE FUNCTION quotes_issued_for_good()"
    return f"{head} BEGIN SELECT RAISE(ABORT, 'rows of {table} are issued for good'); END"


def _dropped(vendor: str, table: str, name: str) -> str:
    return f"DROP TRIGGER IF EXISTS {table}_{name}" + (f" ON {table}" if vendor == "postgresql" else "")
