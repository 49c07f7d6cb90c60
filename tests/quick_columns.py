"""Columns put into words and read back as Django does it, in less time.

A query names a hundred columns, and Django works out each one's words and what makes a value of it anew. What
it says of a column is the same in every query of a run: so here it is asked once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from django.db.models.expressions import Col
from django.db.models.sql.compiler import SQLCompiler

PLAIN: dict[str, Callable[..., Any]] = {
    "compile": SQLCompiler.compile,
    "get_converters": SQLCompiler.get_converters,
}
"""Django's own way."""
_words: dict[tuple[str, str | None], str] = {}
_converters: dict[tuple[int, str], tuple[Any, list[Any]]] = {}
"""By a field's id and the kind of database, with the field, so that the id stays its own."""


def make_columns_quick() -> None:
    """For as long as the process runs."""
    Col.__hash__ = _hash  # type: ignore[assignment, method-assign]
    SQLCompiler.compile = _compile  # type: ignore[method-assign]
    SQLCompiler.get_converters = _get_converters  # type: ignore[method-assign]


def _hash(column: Any) -> int:
    """Of every read in an order Django hashes all columns, each by a look at its constructor's signature.

    Equal columns have equal names, so a hash of the name does.
    """
    return hash((column.alias, column.target.column))


def _compile(self: Any, node: Any) -> Any:
    """The words of a table's own column; of all else, and where a name may stand for more, Django's."""
    if node.__class__ is not Col:
        return PLAIN["compile"](self, node)
    query, alias, column = self.query, node.alias, node.target.column
    if (
        alias not in query.table_map
        or query.extra_select
        or column in query.alias_map
        or column in query.external_aliases
    ):
        return PLAIN["compile"](self, node)
    words = _words.get((alias, column))
    if words is None:
        words = _words[alias, column] = PLAIN["compile"](self, node)[0]
    return words, []


def _get_converters(self: Any, expressions: Iterable[Any]) -> Any:
    """What makes values of plain columns; where anything else is read among them, all is Django's."""
    found: dict[int, Any] = {}
    expressions, vendor = list(expressions), self.connection.vendor
    for place, column in enumerate(expressions):
        if column.__class__ is not Col or column.target is not column.output_field:
            return PLAIN["get_converters"](self, expressions)
        asked = id(column.target), vendor
        kept = _converters.get(asked)
        if kept is None:
            makes = self.connection.ops.get_db_converters(column) + column.get_db_converters(self.connection)
            kept = _converters[asked] = column.target, makes
        if kept[1]:
            found[place] = kept[1], column
    return found
