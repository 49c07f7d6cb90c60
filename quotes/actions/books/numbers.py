"""Numbers of the documents of the books: one series for each kind and year, or one through the years."""

from __future__ import annotations

from datetime import date
from typing import Literal

from quotes.actions.numbers import next_number
from quotes.models import Series
from quotes.queries.books.ledger import books_settings

SeriesKind = Literal["I", "C", "D", "R", "S", "W", "E"]
"""Invoice, credit note, deposit invoice, payment receipt, supplier's bill, write-off, export batch."""


def series_number(*, kind: SeriesKind, on: date) -> str:
    """The next number of a series, such as I-2026-0001 or, through the years, I-00001.

    Must run inside the issuing transaction, as `next_number`.
    """
    through_the_years = books_settings().series == Series.KIND
    return next_number(kind=kind, year=0 if through_the_years else on.year)
