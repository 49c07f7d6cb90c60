"""Rows as a list of ours draws them, beside the same cells as the library of tables draws them."""

from __future__ import annotations

from typing import Any

from django.utils.formats import localize
from django.utils.html import conditional_escape


def as_library_draws(table: Any) -> str:
    """Cell by cell, with what the library finds out of each column anew."""
    return "\n".join(
        f'<tr role="row">{"".join(_cell(column, cell) for column, cell in row.items())}</tr>'
        for row in table.paginated_rows
    )


def _cell(column: Any, shown: Any) -> str:
    return f"<td {column.attrs['td'].as_html()}>{conditional_escape(localize(shown))}</td>"
