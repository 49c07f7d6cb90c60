"""Documents of one series bear their days in the order of their numbers, unless the owner says why not.

The day is the machine's, so an earlier one than the last is a clock that was set back, or was ahead before.
"""

from __future__ import annotations

from datetime import date

from django.contrib.auth.models import User

from quotes.actions.books.refused_months import EarlierDay, EarlierDayIsTheOwners
from quotes.models import Invoice, Series
from quotes.queries.books.chart import books_settings
from quotes.queries.rights import may


def refuse_earlier_day(*, kind: str, on: date, by: User, because: str) -> str:
    """The owner's word where the last document of the series bears a later day; '' where it does not.

    The series must be locked already. Raises EarlierDay or EarlierDayIsTheOwners. Where the owner let one
    pass, that one is the last: the next of the same day needs no word.
    """
    rows = Invoice.objects.filter(kind=kind)
    if books_settings().series != Series.KIND:
        rows = rows.filter(issued_on__year=on.year)
    last = rows.order_by("-pk").values_list("number", "issued_on").first()
    if last is None or last[1] <= on:
        return ""
    if not because:
        raise EarlierDay(on, *last)
    if not may(by, "let something pass"):
        raise EarlierDayIsTheOwners
    return because
