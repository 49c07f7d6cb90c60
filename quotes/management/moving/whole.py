"""The whole move: looked at first, copied, compared, verified; or nothing of it is left."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from io import StringIO
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.db import connections, transaction
from django.db.migrations.executor import MigrationExecutor
from psycopg import sql

from quotes.database.configured import sqlite_file
from quotes.management.moving.compared import RowsSum, held_by, tables
from quotes.management.moving.copied import SOURCE, TARGET, copy_all

Tell = Callable[[str], None]


class NotMoved(Exception):
    """Why nothing was moved, as a sentence for the person at the terminal."""


def move(source: Path, target: dict[str, Any], tell: Tell) -> None:
    """From the embedded database's file into an empty PostgreSQL. NotMoved, and then it is empty again."""
    _refuse_source(source)
    with _settled(sqlite_file(source), target):
        _refuse_target()
        try:
            # An immediate transaction: whoever wants to write to the file waits, and is then told to.
            with transaction.atomic(using=SOURCE):
                _refuse_older()
                tell("Making the tables.")
                call_command("migrate", database=TARGET, verbosity=0, skip_checks=True)
                tell("Copying the rows.")
                copy_all()
                _compare(tell)
                _verify(tell)
        except BaseException:
            _empty_again()
            raise


def _refuse_source(source: Path) -> None:
    if not source.is_file():
        raise NotMoved(f"There is no embedded database at {source}.")
    with closing(sqlite3.connect(f"file:{source}?mode=ro", uri=True)) as file:
        [(verdict,)] = file.execute("PRAGMA integrity_check(1)").fetchall()
    if verdict != "ok":
        raise NotMoved(f"{source} is damaged: {verdict}. Nothing was moved.")


@contextmanager
def _settled(source: dict[str, Any], target: dict[str, Any]) -> Iterator[None]:
    """For as long the site's own database is the new one, so that all that reads it reads there."""
    before = connections.databases[TARGET]
    connections[TARGET].close()
    del connections[TARGET]
    connections.databases[TARGET] = {**before, "TEST": before["TEST"], **target}
    connections.databases[SOURCE] = {**before, **source}
    try:
        yield
    finally:
        for alias in (TARGET, SOURCE):
            connections[alias].close()
            del connections[alias]
        connections.databases[TARGET] = before
        del connections.databases[SOURCE]


def _refuse_target() -> None:
    if connections[TARGET].vendor != "postgresql":
        raise NotMoved("The database to move to is not PostgreSQL. Name one: --to postgres://…")
    if found := connections[TARGET].introspection.table_names():
        raise NotMoved(
            f"The database to move to has {len(found)} tables already, {sorted(found)[0]} among them. "
            "A workshop is moved into an empty database only."
        )


def _refuse_older() -> None:
    """A file that an older version wrote would be copied into tables of another shape."""
    executor = MigrationExecutor(connections[SOURCE])
    if executor.migration_plan(executor.loader.graph.leaf_nodes()):
        raise NotMoved(
            "The embedded database is older than this version. Run `manage.py migrate` on it first."
        )


def _compare(tell: Tell) -> None:
    """Every table on both sides; NotMoved with those that differ."""
    tell(f"{'table':<42}{'rows':>10}{'rows there':>12}  checksum")
    differ, rows = [], 0
    for model in tables():
        here, there = held_by(model, SOURCE), held_by(model, TARGET)
        rows += here.rows
        tell(_line(model._meta.db_table, here, there))
        if here != there:
            differ.append(model._meta.db_table)
    if differ:
        raise NotMoved(
            f"These tables are not the same on both sides: {', '.join(differ)}. Nothing was moved."
        )
    tell(f"{len(tables())} tables, {rows:,} rows: the same on both sides.")


def _line(table: str, here: RowsSum, there: RowsSum) -> str:
    end = here.short if here == there else f"{here.short} here, {there.short} there: DIFFERENT"
    return f"{table:<42}{here.rows:>10}{there.rows:>12}  {end}"


def _verify(tell: Tell) -> None:
    tell("Looking the record through where it now is.")
    found = StringIO()
    try:
        call_command("verify", stdout=found)
    except SystemExit as ended:
        tell(found.getvalue().rstrip())
        raise NotMoved("The record is not sound where it was moved to. Nothing was moved.") from ended
    tell(found.getvalue().rstrip())


def _empty_again() -> None:
    """It was empty when this began, so all that stands in it is this move's."""
    target = connections[TARGET]
    target.close()
    with target.cursor() as cursor:
        if names := target.introspection.table_names(cursor):
            tables_of_it = sql.SQL(", ").join(sql.Identifier(name) for name in names)
            cursor.execute(sql.SQL("DROP TABLE {} CASCADE").format(tables_of_it))
        cursor.execute(
            "SELECT oid::regprocedure::text FROM pg_proc"
            " WHERE pronamespace = current_schema()::regnamespace AND proname LIKE 'quotes\\_%'"
        )
        for (name,) in cursor.fetchall():
            cursor.execute(f"DROP FUNCTION {name}")
