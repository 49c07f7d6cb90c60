"""Puts the catalogue that ships into the test database: worked out once, then written again as it was."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from typing import Any

from django.db import connection

from catalogue.actions.load import load_rows
from catalogue.queries.rows import version
from tests.cast import shipped_rows

LOADED_AT = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
WRITES = ("INSERT", "UPDATE")
RECORD_OF_CHANGES = "quotes_audit"
"""A test that commits has it written as well; its entries follow those before them, so none comes again."""

_written: list[tuple[str, Any]] = []


def load_shipped() -> None:
    """The catalogue that ships, into a database that has none.

    The first call loads it as the workshop does and keeps what is written. Every later call in the run writes
    the same again, with the same mark of its version: so what the site works out from the catalogue and keeps
    by that mark still holds in the next test. A test that changes entries behind the site's back has to
    call `catalogue.actions.entries.count_up`, as every change by the site does.
    """
    assert not version(), "there is a catalogue already"
    if not _written:
        writes: list[tuple[str, Any]] = []
        with connection.execute_wrapper(partial(_keep, writes)):
            load_rows(rows=shipped_rows(), now=LOADED_AT)
        _written.extend(writes)
        return
    with connection.cursor() as cursor:
        for sql, params in _written:
            cursor.execute(sql, params)


def _keep(
    writes: list[tuple[str, Any]],
    execute: Callable[..., Any],
    sql: str,
    params: Any,
    many: bool,
    context: dict[str, Any],
) -> Any:
    if sql.startswith(WRITES) and RECORD_OF_CHANGES not in sql:
        assert not many
        writes.append((sql, params))
    return execute(sql, params, many, context)
