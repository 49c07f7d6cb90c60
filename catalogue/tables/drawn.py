"""The rows of a list as HTML: what all cells of a column share is worked out once, not cell by cell.

The library asks for every cell anew what attributes its column has and what its `render` takes, which is half
the time of a page. What a column shows, and what `render` is given, stays the library's.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.core.exceptions import ObjectDoesNotExist
from django.utils.formats import localize
from django.utils.html import conditional_escape
from django.utils.safestring import SafeString, mark_safe
from django_tables2.columns import BoundColumn
from django_tables2.utils import signature


class DrawnColumn:
    """One column of a table that is being drawn."""

    def __init__(self, bound: BoundColumn, table: Any) -> None:
        self.opening = f"<td {bound.attrs['td'].as_html()}>"
        self.path: tuple[str, ...] = tuple(bound.accessor.bits)
        self.empty_values, self.default = bound.column.empty_values, bound.default
        self.render = bound.render
        wants, _ = signature(bound.render)
        always = {"column": bound.column, "bound_column": bound, "table": table}
        self.given = {name: value for name, value in always.items() if name in wants}
        self.wants_value, self.wants_record = "value" in wants, "record" in wants
        self.last = _word_for(bound, table.data)

    def cell(self, record: Any) -> SafeString:
        value = self.value_of(record)
        if value in self.empty_values:
            return _escaped(self.default)
        given = dict(self.given)
        if self.wants_value:
            given["value"] = value
        if self.wants_record:
            given["record"] = record
        return _escaped(self.render(**given))

    def value_of(self, record: Any) -> Any:
        """What the column's path leads to; None where it leads nowhere."""
        value = record
        try:
            for step in (*self.path[:-1], self.last):
                value = getattr(value, step)
                if callable(value):
                    value = value()
                if value is None:
                    return None
        except (AttributeError, ObjectDoesNotExist):
            return None
        return value


def rows_drawn(table: Any) -> SafeString:
    """The rows of the present page, one `tr` each."""
    columns = [DrawnColumn(bound, table) for bound in table.columns]
    return mark_safe("\n".join(_rows(columns, table.paginated_rows.data)))  # cells are escaped


def _rows(columns: list[DrawnColumn], records: Iterable[Any]) -> Iterable[str]:
    for record in records:
        cells = "".join(f"{column.opening}{column.cell(record)}</td>" for column in columns)
        yield f'<tr role="row">{cells}</tr>'


def _word_for(bound: BoundColumn, data: Any) -> str:
    """The last step of the path: for a field with choices, what gives its word."""
    last = str(bound.accessor.bits[-1])
    model = getattr(data, "model", None)
    if model is None:
        return last
    field = bound.accessor.get_field(model)
    return f"get_{last}_display" if getattr(field, "choices", None) and field.name == last else last


def _escaped(shown: Any) -> SafeString:
    return conditional_escape(shown if isinstance(shown, str) else localize(shown))
