"""Payments as a list, and what one payment has settled."""

from __future__ import annotations

from django.db.models import OuterRef, Subquery

from quotes.models import Allocation, OpenItem, Payment
from quotes.models.books.payment import PaymentQuerySet


def listed_payments() -> PaymentQuerySet:
    """Every payment; `left` is what of it no invoice has used yet, above nought. Deposits have none."""
    left = OpenItem.objects.filter(payment=OuterRef("pk")).values("open_amount")[:1]
    rows = Payment.objects.select_related("customer", "build__quote", "job", "reverses", "reversed_by")
    return rows.defer("build__quote__request").annotate(open_amount=Subquery(left))


def settled_by(item: OpenItem) -> list[Allocation]:
    """What an item settles, or is settled by, in the order in which it came."""
    rows = Allocation.objects.filter(debit=item) | Allocation.objects.filter(credit=item)
    return list(
        rows.select_related(
            "debit__invoice", "credit__payment", "credit__invoice", "credit__write_off", "debit__payment"
        )
        .defer("debit__invoice__sheet", "credit__invoice__sheet")
        .order_by("at", "pk")
    )
