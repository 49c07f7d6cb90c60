"""Deposits held: what customers have paid for builds before it is invoiced."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django.db.models import Case, F, Q, Sum, When
from django.db.models.functions import Coalesce

from catalogue.calc.money import ZERO
from quotes.models import (
    Acceptance,
    Invoice,
    InvoiceKind,
    ItemKind,
    JournalLine,
    OpenItem,
    Payment,
    PaymentKind,
)
from quotes.models.books.payment import PaymentQuerySet
from quotes.queries.books.exact import exact

STRIP_DOWN = "strip-down"
"""What a deposit is held for before there is a build."""


@dataclass(frozen=True, slots=True)
class DepositHeld:
    """What is held for one build, before tax where it was asked for by deposit invoice.

    Without a build it is held for strip-downs of the customer, on which nothing was said yes to yet.
    """

    build_id: int | None
    quote: str
    customer_id: int
    customer: str
    amount: Decimal


def deposits_held(on: date, customer_id: int | None = None) -> list[DepositHeld]:
    """What the deposits account holds for each build at the end of that day; two queries.

    By deposit invoice it is the net, whether paid yet or not; by receipt it is what was paid.
    """
    lines = JournalLine.objects.filter(role="deposits_held", entry__on__lte=on)
    # A deposit of a strip-down becomes the build's with its yes.
    lines = lines.annotate(of=Coalesce("build", "entry__payment__job__quote__acceptance"))
    sums = lines.order_by().values("of", *WHOSE).annotate(held=Sum(F("credit") - F("debit")))
    named = _named({row["of"] for row in sums if row["of"] is not None})
    held: dict[tuple[int | None, int], DepositHeld] = {}
    for row in sums:
        pk = row["of"]
        quote, owner, name = named[pk] if pk is not None else (STRIP_DOWN, *_whose(row))
        before = held.get((pk, owner))
        amount = exact(row["held"]) + (before.amount if before else ZERO)
        held[pk, owner] = DepositHeld(pk, quote, owner, name, amount)
    mine = (one for one in held.values() if customer_id in (None, one.customer_id))
    return sorted((one for one in mine if one.amount), key=lambda one: (one.quote, one.customer_id))


WHOSE = (
    "entry__payment__customer",
    "entry__payment__customer__name",
    "entry__invoice__customer",
    "entry__invoice__customer__name",
)


def _whose(row: Mapping[str, Any]) -> tuple[int, str]:
    paid, paid_name, asked, asked_name = (row[name] for name in WHOSE)
    return (paid, paid_name) if paid is not None else (asked or 0, asked_name or "")


def _named(builds: Collection[int]) -> dict[int, tuple[str, int, str]]:
    """Quote number, customer and the customer's name of each build."""
    rows = Acceptance.objects.filter(pk__in=builds)
    found = rows.values_list("pk", "quote__number", "quote__customer_id", "quote__customer__name")
    return {pk: (str(number), owner, name) for pk, number, owner, name in found}


def held_by_receipt(build: Acceptance, customer_id: int | None = None) -> Decimal:
    """What was paid as deposit for a build without a deposit invoice, and neither paid back nor taken off.

    For one customer: not more than he himself has paid and not had back.
    """
    payments = Payment.objects.deposits_of(build)
    held = _moved(payments) - _taken_off(build) - sum(used_by_sales(payments).values(), ZERO)
    if customer_id is None:
        return held
    return min(held, _moved(payments.filter(customer_id=customer_id)))


def deposit_short(build: Acceptance) -> Decimal:
    """What of the deposit agreed at the yes has not come in; nothing once the build is invoiced."""
    if not build.deposit or Invoice.objects.filter(build=build, kind=InvoiceKind.INVOICE).exists():
        return ZERO
    asked = OpenItem.objects.filter(invoice__build=build, kind=ItemKind.DEPOSIT)
    paid = exact(asked.aggregate(paid=Sum(F("amount") - F("open_amount")))["paid"])
    return max(build.deposit - paid - _moved(Payment.objects.deposits_of(build)), ZERO)


def build_of_payment(payment: Payment) -> Acceptance | None:
    """The build that a deposit is held for; of a strip-down's, once its quote was said yes to."""
    if payment.build is not None or payment.job is None:
        return payment.build
    return Acceptance.objects.filter(quote=payment.job.quote_id).select_related("quote").first()


def held_of(payment: Payment, customer_id: int | None = None) -> Decimal:
    """What is still held for the build, or else the strip-down, that a deposit was paid for."""
    if build := build_of_payment(payment):
        return held_by_receipt(build, customer_id)
    payments = Payment.objects.filter(job=payment.job_id, build=None, deposit=True)
    if payment.job_id is None:
        return ZERO
    return _moved(payments) - sum(used_by_sales(payments).values(), ZERO)


def strip_down_deposits(customer_id: int) -> dict[str, Decimal]:
    """Deposits of a customer's strip-downs on which nothing was said yes to, by receipt: what is left."""
    rows = Payment.objects.filter(kind=PaymentKind.RECEIVED, reversed_by=None, job__isnull=False, build=None)
    rows = rows.filter(customer=customer_id, job__quote__accepted_at=None).select_related("job")
    left = {row.number: left_of_receipt(row) for row in rows.order_by("on", "pk")}
    return {number: amount for number, amount in left.items() if amount > ZERO}


def used_by_sales(payments: PaymentQuerySet) -> dict[str, Decimal]:
    """What invoices of strip-downs, which rest on no build, have taken off of these deposits, by receipt."""
    numbers = set(payments.filter(job__isnull=False).values_list("number", flat=True))
    if not numbers:
        return {}
    used: dict[str, Decimal] = {}
    documents = Invoice.objects.filter(build=None, customer__payments__number__in=numbers).distinct()
    for number, amount in _prepaid(documents.values_list("kind", "sheet__prepayments")):
        if number in numbers:
            used[number] = used.get(number, ZERO) + amount
    return used


def _prepaid(documents: Iterable[tuple[str, Any]]) -> Iterator[tuple[str, Decimal]]:
    """Receipt and sum of everything taken off as paid before; below nought where it was given back."""
    for kind, prepayments in documents:
        sign = -1 if kind == InvoiceKind.CREDIT else 1
        for taken in prepayments or ():
            yield taken["receipt"], sign * Decimal(str(taken["amount"]))


def left_of_receipt(payment: Payment) -> Decimal:
    """What of one deposit by receipt is held still, and at most what is held with it."""
    used = used_by_sales(Payment.objects.filter(pk=payment.pk)).get(payment.number, ZERO)
    if build := build_of_payment(payment):
        documents = Invoice.objects.of_build(build.pk).values_list("kind", "sheet__prepayments")
        used += sum((amount for number, amount in _prepaid(documents) if number == payment.number), ZERO)
    return max(min(payment.amount - used, held_of(payment)), ZERO)


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
