"""One moment of the database, to look at while people work: nothing is written and nobody waits."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connection, transaction


@contextmanager
def one_moment() -> Iterator[None]:
    """All that is read inside is as of one moment. Inside a transaction it is that of the transaction."""
    if connection.in_atomic_block:
        yield
    elif connection.vendor == "postgresql":
        with transaction.atomic():
            _run("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
            yield
    else:
        # Django's own would be an immediate one (see settings), for which everyone who writes would wait.
        _run("PRAGMA query_only = ON")
        _run("BEGIN")
        try:
            yield
        finally:
            _run("ROLLBACK")
            _run("PRAGMA query_only = OFF")


def _run(statement: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(statement)
