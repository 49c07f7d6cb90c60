"""Suppliers' bills with the word for where each stands."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from django.db.models import Case, IntegerField, Q, Value, When

from catalogue.calc.said import to_say
from quotes.models import Acceptance, SupplierBill
from quotes.models.books.bill import SupplierBillQuerySet

WORDS = (to_say("overdue"), to_say("due"), to_say("to pay"), to_say("paid"), to_say("reversed"))
"""In the order of what they ask of us."""
SOON = timedelta(days=7)
"""A bill is said to be due in its last week."""


def listed_bills(on: date) -> SupplierBillQuerySet:
    """Every bill; `place` is that of its word in WORDS, on that day.

    One that takes back a bill that was paid waits for the supplier's money.
    """
    gone = Q(taken_back_at__isnull=False) | Q(reverses__isnull=False, reverses__payment=None)
    place = Case(
        When(payment__isnull=False, then=Value(3)),
        When(gone, then=Value(4)),
        When(due_on__lt=on, then=Value(0)),
        When(due_on__lte=on + SOON, then=Value(1)),
        default=Value(2),
        output_field=IntegerField(),
    )
    rows = SupplierBill.objects.select_related("payment", "reverses", "reversed_by")
    return rows.annotate(place=place)


def accepted_builds(numbers: Iterable[str]) -> dict[str, Acceptance]:
    """Builds by the number of their quote, in capitals; one query."""
    wanted = {number.upper() for number in numbers}
    rows = Acceptance.objects.filter(quote__number__in=wanted).select_related("quote")
    return {str(row.quote.number).upper(): row for row in rows.defer("quote__request")}


def builds_offered() -> list[str]:
    """Numbers of the quotes of the latest builds, those still on the bench first."""
    rows = Acceptance.objects.order_by("done_at", "-accepted_at").values_list("quote__number", flat=True)
    return [str(number) for number in rows[:100]]


def suppliers_known() -> list[str]:
    """Names that stand on bills already."""
    names = SupplierBill.objects.order_by("supplier").values_list("supplier", flat=True).distinct()
    return list(names[:200])
