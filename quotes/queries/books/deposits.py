"""Deposits held: what customers have paid for builds before it is invoiced."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Case, F, Q, Sum, Value, When
from django.db.models.fields import DecimalField
from django.db.models.functions import Coalesce

from catalogue.calc.money import ZERO
from quotes.models import Acceptance, Invoice, InvoiceKind, JournalLine, Payment, PaymentKind

NOUGHT = Value(ZERO, output_field=DecimalField(max_digits=16, decimal_places=3))


@dataclass(frozen=True, slots=True)
class DepositHeld:
    """What is held for one build, before tax where it was asked for by deposit invoice."""

    build_id: int
    quote: str
    customer: str
    amount: Decimal


def deposits_held(on: date) -> list[DepositHeld]:
    """What the deposits account holds for each build at the end of that day; one query.

    By deposit invoice it is the net, whether paid yet or not; by receipt it is what was paid.
    """
    sums = (
        JournalLine.objects.filter(role="deposits_held", entry__on__lte=on, build__isnull=False)
        .values("build_id", "build__quote__number", "build__quote__customer__name")
        .annotate(held=Sum(F("credit") - F("debit")))
        .exclude(held=0)
        .order_by("build__quote__number")
    )
    return [
        DepositHeld(
            row["build_id"],
            str(row["build__quote__number"]),
            row["build__quote__customer__name"],
            row["held"],
        )
        for row in sums
    ]


def held_by_receipt(build: Acceptance, customer_id: int | None = None) -> Decimal:
    """What was paid as deposit for a build without a deposit invoice, and neither paid back nor taken off.

    For one customer: not more than he himself has paid and not had back.
    """
    payments = Payment.objects.filter(build=build, deposit=True)
    held = _moved(payments) - _taken_off(build)
    if customer_id is None:
        return held
    return min(held, _moved(payments.filter(customer_id=customer_id)))


def _moved(payments: object) -> Decimal:
    way_in = Q(kind=PaymentKind.RECEIVED) | Q(kind=PaymentKind.REVERSAL, reverses__kind=PaymentKind.REFUND)
    signed = Case(When(way_in, then=F("amount")), default=-F("amount"))
    total: Decimal = payments.aggregate(sum=Coalesce(Sum(signed), NOUGHT))["sum"]  # type: ignore[attr-defined]
    return total


def _taken_off(build: Acceptance) -> Decimal:
    """What invoices of the build have taken off as paid before, less what credit notes gave back."""
    signed = Case(When(kind=InvoiceKind.CREDIT, then=-F("prepaid")), default=F("prepaid"))
    total: Decimal = Invoice.objects.of_build(build.pk).aggregate(sum=Coalesce(Sum(signed), NOUGHT))["sum"]
    return total
