"""Which tables a request writes to, and whether they are as they were."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from hashlib import sha256
from typing import Any

from django.db import connection, transaction

WRITES = re.compile(r'\s*(?:INSERT INTO|UPDATE|DELETE FROM)\s+"?(\w+)"?', re.IGNORECASE)
OF_SIGNING_IN = (
    "django_session",
    "axes_",
    "otp_",
    "quotes_signin",
    "quotes_passwordask",
    "quotes_allowance",
    "auth_user",
)
"""Sessions, sign-ins, tries to sign in and guessed links are noted whatever becomes of the request."""
DRAWN = ("quotes_storedfile",)
"""Where the bytes of papers and photos lie."""


class Watch:
    """Undoes what each input wrote, and knows of each table what stands in it."""

    def __init__(self) -> None:
        self._standing: dict[str, str] = {}
        self._written: set[str] = set()

    @contextmanager
    def undone(self) -> Iterator[None]:
        """What is written inside is noted, and gone afterwards."""
        self._written = set()
        with transaction.atomic(), connection.execute_wrapper(self._note):
            yield
            transaction.set_rollback(True)

    def _note(
        self, execute: Callable[..., Any], sql: str, params: Any, many: bool, context: dict[str, Any]
    ) -> Any:
        if found := WRITES.match(sql):
            self._written.add(found[1])
        return execute(sql, params, many, context)

    @property
    def drew(self) -> bool:
        """A paper was drawn and kept, as it is when it is first asked for."""
        return bool(self._written.intersection(DRAWN))

    def contents(self) -> dict[str, str]:
        """The fingerprint of each table written to, as it stands now."""
        return {table: _fingerprint(table) for table in _own(self._written)}

    def differing(self, contents: dict[str, str]) -> list[str]:
        """The tables that are not as they stand; asked once the input is undone."""
        for table in contents.keys() - self._standing.keys():
            self._standing[table] = _fingerprint(table)
        return [table for table, found in contents.items() if found != self._standing[table]]

    def written_by(self, work: Callable[[], tuple[Any, bool]]) -> tuple[Any, list[str]]:
        """What the work gave; where it says that it was refused, the tables that it left otherwise.

        Within `undone`. What was refused is taken back, so that its tables can be looked at without it.
        """
        self._written, contents = set(), {}
        with transaction.atomic():
            given, refused = work()
            if refused:
                contents = self.contents()
                transaction.set_rollback(True)
        return given, [table for table, found in contents.items() if found != _fingerprint(table)]


def _own(tables: Iterable[str]) -> list[str]:
    return sorted(table for table in tables if not table.startswith(OF_SIGNING_IN))


def _fingerprint(table: str) -> str:
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT * FROM {connection.ops.quote_name(table)}")
        rows = sorted(repr([_plain(cell) for cell in row]) for row in cursor.fetchall())
    return sha256("\n".join(rows).encode()).hexdigest()


def _plain(cell: Any) -> Any:
    return sha256(bytes(cell)).hexdigest() if isinstance(cell, memoryview | bytes) else cell
