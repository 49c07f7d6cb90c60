"""The catalogue that ships, standing in the test database from the start of a run.

Every test begins with it, as a workshop does. One that needs an empty catalogue calls `unload`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from functools import partial
from typing import Any

from django.db import connection, transaction

from catalogue.actions.load import load_rows
from catalogue.queries.rows import version
from tests.cast import shipped_rows
from tests.written_again import RECORD_OF_CHANGES

LOADED_AT = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
WRITES = ("INSERT", "UPDATE")

LISTED = {
    f"catalogue_{name}"
    for name in ("listedpart", "listedprice", "heldprice", "pricelist", "listterms", "exchangerate")
}
"""What suppliers list: it ships with no catalogue, so none of it stands in the next test."""

_written: list[tuple[str, Any]] = []
_mark = ""


def load_shipped() -> None:
    """The catalogue that ships, where a test before emptied the database or this one unloaded it.

    The first call loads it as the workshop does and keeps what is written. Every later call in the run writes
    the same again, with the same mark of its version: so what the site works out from the catalogue and keeps
    by that mark still holds in the next test. A test that changes entries behind the site's back has to
    call `catalogue.actions.entries.count_up`, as every change by the site does.
    """
    global _mark
    if version():
        _mark = _mark or version()
        return
    if _written:
        with connection.cursor() as cursor:
            for sql, params in _written:
                cursor.execute(sql, params)
        return
    with connection.execute_wrapper(partial(_keep, _written)):
        load_rows(rows=shipped_rows(), now=LOADED_AT)
    _mark = version()


def unload() -> None:
    """An empty catalogue, as before the first load."""
    with transaction.atomic(), connection.cursor() as cursor:
        for table in _tables():
            cursor.execute(f"DELETE FROM {table}")


def standing(tables: Sequence[str]) -> set[str]:
    """Of these, what a flush may leave: the catalogue's, as long as nobody changed it."""
    return ({*tables} & _tables()) - LISTED if _mark and version() == _mark else set()


def _tables() -> set[str]:
    return {name for name in connection.introspection.table_names() if name.startswith("catalogue_")}


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
