"""Deposits held: what customers have paid for builds before it is invoiced."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Case, F, Q, Sum, When

from catalogue.calc.money import ZERO
from quotes.models import Acceptance, Invoice, InvoiceKind, JournalLine, OpenItem, Payment, PaymentKind
from quotes.models.books.payment import PaymentQuerySet
from quotes.queries.books.exact import exact


@dataclass(frozen=True, slots=True)
class DepositHeld:
    """What is held for one build, before tax where it was asked for by deposit invoice."""

    build_id: int
    quote: str
    customer_id: int
    customer: str
    amount: Decimal


def deposits_held(on: date, customer_id: int | None = None) -> list[DepositHeld]:
    """What the deposits account holds for each build at the end of that day; one query.

    By deposit invoice it is the net, whether paid yet or not; by receipt it is what was paid.
    """
    lines = JournalLine.objects.filter(role="deposits_held", entry__on__lte=on, build__isnull=False)
    if customer_id is not None:
        lines = lines.filter(build__quote__customer=customer_id)
    sums = (
        lines.values(
            "build_id", "build__quote__number", "build__quote__customer_id", "build__quote__customer__name"
        )
        .annotate(held=Sum(F("credit") - F("debit")))
        .order_by("build__quote__number")
    )
    found = [
        DepositHeld(
            build_id=row["build_id"],
            quote=str(row["build__quote__number"]),
            customer_id=row["build__quote__customer_id"],
            customer=row["build__quote__customer__name"],
            amount=exact(row["held"]),
        )
        for row in sums
    ]
    return [held for held in found if held.amount]


def held_by_receipt(build: Acceptance, customer_id: int | None = None) -> Decimal:
    """What was paid as deposit for a build without a deposit invoice, and neither paid back nor taken off.

    For one customer: not more than he himself has paid and not had back.
    """
    payments = Payment.objects.filter(build=build, deposit=True)
    held = _moved(payments) - _taken_off(build)
    if customer_id is None:
        return held
    return min(held, _moved(payments.filter(customer_id=customer_id)))


def left_of_receipt(payment: Payment) -> Decimal:
    """What of one deposit by receipt is held still, and at most what is held for its build."""
    if payment.build is None:
        return ZERO
    documents = Invoice.objects.of_build(payment.build.pk).values_list("kind", "sheet__prepayments")
    used = ZERO
    for kind, prepayments in documents:
        sign = -1 if kind == InvoiceKind.CREDIT else 1
        for taken in prepayments or ():
            if taken["receipt"] == payment.number:
                used += sign * Decimal(str(taken["amount"]))
    return max(min(payment.amount - used, held_by_receipt(payment.build)), ZERO)


def _moved(payments: PaymentQuerySet) -> Decimal:
    """Deposits in less deposits out; what of a reversal the customer owes on his account was not held."""
    way_in = Q(kind=PaymentKind.RECEIVED) | Q(kind=PaymentKind.REVERSAL, reverses__kind=PaymentKind.REFUND)
    signed = Case(When(way_in, then=F("amount")), default=-F("amount"))
    owed = OpenItem.objects.filter(payment__in=payments).aggregate(sum=Sum("amount"))["sum"]
    return exact(payments.aggregate(sum=Sum(signed))["sum"]) + exact(owed)


def _taken_off(build: Acceptance) -> Decimal:
    """What invoices of the build have taken off as paid before, less what credit notes gave back."""
    signed = Case(When(kind=InvoiceKind.CREDIT, then=-F("prepaid")), default=F("prepaid"))
    return exact(Invoice.objects.of_build(build.pk).aggregate(sum=Sum(signed))["sum"])
