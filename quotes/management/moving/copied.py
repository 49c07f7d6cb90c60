"""Rows written into PostgreSQL as they are, with their keys, and the counters of its keys set after them."""

from __future__ import annotations

from typing import Any

from django.core.management.color import no_style
from django.db import connections, models, transaction
from psycopg import sql

from quotes.management.moving.compared import columns_of, rows_of, tables
from quotes.models import frozen_triggers

SOURCE, TARGET = "moved_from", "default"


def copy_all() -> None:
    """Every table in one transaction: whole, or nothing.

    Triggers stand aside for that moment, since the chain of changes is copied and not told anew. Keys to
    other tables are looked at when all are there.
    """
    target = connections[TARGET]
    with transaction.atomic(using=TARGET), target.cursor() as cursor:
        with target.schema_editor(atomic=False) as editor:
            frozen_triggers.take_off(None, editor)
        _empty(cursor)
        for model in tables():
            _copy(model, cursor)
        _set_counters(cursor)
        cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
        with target.schema_editor(atomic=False) as editor:
            frozen_triggers.set_again(None, editor)


def _empty(cursor: Any) -> None:
    """Of what the migrations themselves have put in: the rows of the source take its place."""
    for model in tables():
        cursor.execute(sql.SQL("DELETE FROM {}").format(sql.Identifier(model._meta.db_table)))


def _copy(model: type[models.Model], cursor: Any) -> None:
    target, fields = connections[TARGET], columns_of(model)
    names = sql.SQL(", ").join(sql.Identifier(str(field.column)) for field in fields)
    into = sql.SQL("COPY {} ({}) FROM STDIN").format(sql.Identifier(model._meta.db_table), names)
    with cursor.copy(into) as copy:
        for row in rows_of(model, SOURCE):
            pairs = zip(fields, row, strict=True)
            copy.write_row([field.get_db_prep_save(value, target) for field, value in pairs])


def _set_counters(cursor: Any) -> None:
    """No key is given twice, nor one that a row which is gone once had."""
    for statement in connections[TARGET].ops.sequence_reset_sql(no_style(), tables()):
        cursor.execute(statement)
    with connections[SOURCE].cursor() as source:
        source.execute("SELECT name, seq FROM sqlite_sequence")
        last = dict(source.fetchall())
    for model in tables():
        table, key = model._meta.db_table, model._meta.pk
        if isinstance(key, models.AutoField) and last.get(table):
            cursor.execute(
                "SELECT setval(pg_get_serial_sequence(%s, %s), %s)", [table, key.column, last[table]]
            )
