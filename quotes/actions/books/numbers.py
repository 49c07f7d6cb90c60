"""Numbers of the documents of the books: one series for each kind and year, or one through the years."""

from __future__ import annotations

from datetime import date
from typing import Literal, get_args

from quotes.actions.numbers import next_number
from quotes.models import Counter, Series
from quotes.queries.books.chart import books_settings

SeriesKind = Literal["I", "C", "D", "R", "S", "W", "E"]
"""Invoice, credit note, deposit invoice, payment receipt, supplier's bill, write-off, export batch."""
GATE = "J"
"""Counter that documents without a counter of their own lock, so that closing a month waits for them."""


def series_number(*, kind: SeriesKind, on: date) -> str:
    """The next number of a series, such as I-2026-0001 or, through the years, I-00001.

    Must run inside the issuing transaction, as `next_number`.
    """
    return next_number(kind=kind, year=_year(on))


def hold_the_series(on: date) -> None:
    """Hold every series until the transaction ends, and wait for whoever has taken a number of one.

    Also those that documents of that year have not begun: where one is being begun this moment, beginning it
    too waits for that document.
    """
    for kind in sorted(get_args(SeriesKind)):
        Counter.objects.get_or_create(kind=kind, year=_year(on))
    # No gate is among them: who waits for one, or holds one, may hold a series or want it.
    rows = Counter.objects.filter(kind__in=get_args(SeriesKind)).order_by("kind", "year")
    list(rows.select_for_update())


def _year(on: date) -> int:
    """0 where a series goes through the years."""
    return 0 if books_settings().series == Series.KIND else on.year
