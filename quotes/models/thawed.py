"""Lets rows that are kept for good be changed inside one transaction, and nowhere else.

Nobody else ever sees the tables without their triggers: they are taken off and set again before the
transaction ends, and come back by themselves where it fails.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from contextlib import contextmanager

from django.db import connection, transaction

from quotes.models.frozen_tables import ALL
from quotes.models.frozen_triggers import columns_of, freeze, keep, let_go, thaw


@contextmanager
def thawed(wanted: Collection[str]) -> Iterator[None]:
    """The tables without their triggers; those that have none are passed over."""
    if not connection.in_atomic_block:
        raise transaction.TransactionManagementError("Rows are thawed inside a transaction only.")
    tables = sorted({*wanted} & {*ALL})
    vendor = connection.vendor
    with connection.cursor() as cursor:
        columns = {table: columns_of(cursor, table) for table in tables}
        for statement in [*thaw(vendor, tables), *let_go(vendor, tables)]:
            cursor.execute(statement)
        yield
        if vendor == "postgresql":
            # A table whose keys are still to be checked at the end takes no new trigger.
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
        for statement in [*freeze(vendor, columns), *keep(vendor, tables)]:
            cursor.execute(statement)
        if vendor == "postgresql":
            cursor.execute("SET CONSTRAINTS ALL DEFERRED")
