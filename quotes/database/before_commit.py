"""What is to be written at the very end of a transaction, inside it.

Django keeps callbacks for after a commit, and forgets those of a savepoint that is rolled back. What waits
here stands among them, so that it is forgotten in the same way; a commit takes it out and writes it first. A
lock that everybody needs is so held for the last moments only, and nothing else is waited for meanwhile.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from django.db import transaction
from django.db.backends.base.base import BaseDatabaseWrapper


class Waiting:
    """Something that is written before the commit, together with all others of its class."""

    def __call__(self) -> None:
        """Nothing is left to do after the commit: a test that runs the callbacks of one that never comes."""

    @classmethod
    def write(cls, waiting: Sequence[Self]) -> None:
        """Write them all, in the order in which they came."""
        raise NotImplementedError


def wait(waiting: Waiting, connection: BaseDatabaseWrapper) -> None:
    """Have it written at the end of the transaction; outside of any, in one of its own at once."""
    if connection.in_atomic_block:
        connection.on_commit(waiting)
    else:
        with transaction.atomic():
            type(waiting).write([waiting])


def write_waiting(connection: BaseDatabaseWrapper) -> None:
    """Write all that waits, class by class."""
    callbacks = connection.run_on_commit
    waiting = [one[1] for one in callbacks if isinstance(one[1], Waiting)]
    if not waiting:
        return
    connection.run_on_commit = [one for one in callbacks if not isinstance(one[1], Waiting)]
    for kind in dict.fromkeys(type(one) for one in waiting):
        kind.write([one for one in waiting if type(one) is kind])


class WritesBeforeCommit(BaseDatabaseWrapper):
    """A connection that writes what waits before it commits; where that fails, nothing is kept."""

    def commit(self) -> None:
        try:
            write_waiting(self)
        except BaseException:
            self.rollback()
            raise
        super().commit()
