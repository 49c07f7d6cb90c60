"""Interest and storage that the signed terms would ask for today: proposals, kept nowhere until taken up."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django.utils import timezone, translation

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.books.late import INTEREST, STORAGE, LateItem, interest_lines, storage_line
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.values import Late
from quotes.calc.shop import TaxCode
from quotes.models import Acceptance, Allocation, Booking, Customer, Invoice, InvoiceKind, OpenItem, Workshop
from quotes.queries.books.day import money_of
from quotes.queries.books.exact import exact
from quotes.queries.enquiry import booking_terms
from quotes.queries.workshop import taxability

UNTAXED = ("O", "E", "Z")
"""Categories of tax under which nothing is charged, in the order in which interest looks for one."""


@dataclass(frozen=True, slots=True)
class ProposedLine:
    """A line with the sentence of the terms that it rests on."""

    line: DraftLine
    terms: str


def proposed_lines(customer: Customer, build: Acceptance | None, on: date) -> list[ProposedLine]:
    """Interest on the customer's late invoices, and storage of the build where one is given.

    In the customer's language: they are for a draft.
    """
    with translation.override(customer.reads):
        storage = proposed_storage(build, on) if build else None
        return [*proposed_interest(customer, on), *([storage] if storage else [])]


def proposed_interest(customer: Customer, on: date) -> list[ProposedLine]:
    """One line for each of the customer's late invoices, by the rate and grace frozen into it.

    Also for one that was paid in the end, and late.
    """
    return list(interest_proposed([customer.pk], on).values())


def interest_proposed(customers: Collection[int], on: date) -> dict[str, ProposedLine]:
    """The same for several customers, by the number of the invoice; the same queries for any number."""
    workshop = Workshop.objects.get_or_default()
    money = money_of(on, workshop)
    code = _untaxed(money.tax_codes, workshop)
    return {
        item.number: ProposedLine(line, _interest_terms(item))
        for item in _late_items(customers, on)
        for line in interest_lines([item], on, money.decimals, code)
    }


def _late_items(customers: Collection[int], on: date) -> Iterable[LateItem]:
    rows = (
        OpenItem.objects.filter(
            customer__in=customers, invoice__kind=InvoiceKind.INVOICE, due_on__lt=on, amount__gt=0
        )
        .order_by("due_on", "pk")
        .values_list("pk", "number", "due_on", "amount", "invoice__sheet__late", "invoice__sheet__lines")
    )
    asked, settled = _asked_up_to(INTEREST, customers=customers), _settled(customers)
    for pk, number, due_on, amount, late, lines in rows:
        assert due_on is not None
        yield LateItem(
            number=number,
            due_on=due_on,
            amount=amount - _interest_in(lines),
            settled=tuple(settled[pk]),
            late=Late.model_validate(late),
            asked_up_to=asked.get(number),
        )


def _interest_in(lines: Iterable[Mapping[str, Any]]) -> Decimal:
    """What of an invoice is interest itself, with tax: it is simple, so none is asked for on it."""
    asked = (line for line in lines if line["kind"] == INTEREST)
    nets = ((Decimal(str(line["net"])), Decimal(str(line["rate_pct"]))) for line in asked)
    return exact(sum((net * (100 + rate) / 100 for net, rate in nets), ZERO))


def _interest_terms(item: LateItem) -> str:
    rate = f"{item.late.rate_pct_a_year.normalize():f}"
    return say(
        "{number} says: {rate} % a year from {after_days} days after its day of payment.",
        number=item.number,
        rate=rate,
        after_days=item.late.after_days,
    )


def proposed_storage(build: Acceptance, on: date) -> ProposedLine | None:
    """Storage of a build that is done, as it was agreed to; None where it was not.

    By the figures in the confirmation of its booking; where there are none, and the terms of the yes speak of
    storage at the posted rate, by the rate that is posted.
    """
    signed = _storage_terms(build) if build.done_at else None
    if signed is None or build.done_at is None:
        return None
    workshop = Workshop.objects.get_or_default()
    number = str(build.quote.number)
    line = storage_line(
        build=number,
        ready_on=timezone.localdate(build.done_at),
        on=on,
        free_days=signed.free_days,
        a_day=signed.a_day,
        decimals=money_of(on, workshop).decimals,
        tax_code=taxability(workshop)["labour"],
        asked_up_to=_asked_up_to(STORAGE, build=build).get(number),
    )
    return ProposedLine(line, signed.sentence) if line else None


@dataclass(frozen=True, slots=True)
class _Storage:
    free_days: int
    a_day: Decimal
    sentence: str


def _storage_terms(build: Acceptance) -> _Storage | None:
    bookings = Booking.objects.standing().filter(enquiry__quote=build.quote, terms_agreed_on__isnull=False)
    booked: Mapping[str, Any] = bookings.values_list("sheet", flat=True).first() or {}
    if booked.get("storage_a_day") is not None:
        sentence = next(iter(booked["storage"]), "")
        return _Storage(int(booked["storage_free_days"]), Decimal(str(booked["storage_a_day"])), sentence)
    posted = booking_terms()
    sentences = [*booked.get("storage", ()), *build.revision.sheet["terms"]]
    said = next((each for each in sentences if "stor" in each.lower()), "")
    return _Storage(posted.storage_free_days, posted.storage_a_day, said) if said else None


def _untaxed(codes: Mapping[str, TaxCode], workshop: Workshop) -> str:
    """A code under which nothing is charged, for interest is no supply; else labour's, to be changed."""
    for category in UNTAXED:
        for code, value in codes.items():
            if value.category == category:
                return code
    return taxability(workshop)["labour"]


def _settled(customers: Collection[int]) -> dict[int, list[tuple[date, Decimal]]]:
    """Day and sum of all that has settled each of the customers' items; one query."""
    found: dict[int, list[tuple[date, Decimal]]] = defaultdict(list)
    rows = Allocation.objects.filter(debit__customer__in=customers).order_by("on", "pk")
    for debit, credit_on, on, amount in rows.values_list("debit_id", "credit__on", "on", "amount"):
        # Money that came before it was told what it settles was there from the day it came.
        found[debit].append((credit_on if amount > ZERO else on, amount))
    return found


def _asked_up_to(
    kind: str, *, customers: Collection[int] = (), build: Acceptance | None = None
) -> dict[str, date]:
    """By invoice or build, the day up to which interest or storage stands on an invoice not credited."""
    rows = Invoice.objects.filter(kind__in=(InvoiceKind.INVOICE, InvoiceKind.CREDIT))
    rows = rows.filter(build=build) if build else rows.filter(customer__in=customers)
    asked: dict[str, Decimal] = defaultdict(lambda: ZERO)
    for document, lines in rows.order_by().values_list("kind", "sheet__lines"):
        sign = -1 if document == InvoiceKind.CREDIT else 1
        for key, quantity in _keyed(kind, lines):
            asked[key] += sign * quantity
    found: dict[str, date] = {}
    for key, quantity in asked.items():
        _, of, day = key.rsplit(":", 2)
        if quantity > ZERO:
            found[of] = max(found.get(of, date.min), date.fromisoformat(day))
    return found


def _keyed(kind: str, lines: Iterable[Mapping[str, object]]) -> Iterable[tuple[str, Decimal]]:
    for line in lines:
        key = str(line["key"])
        if line["kind"] == kind and key.startswith(f"{kind}:") and key.count(":") >= 2:
            yield key, Decimal(str(line["quantity"]))
