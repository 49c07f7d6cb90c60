"""Interest and storage that the signed terms would ask for today: proposals, kept nowhere until taken up."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal

from django.utils import timezone

from catalogue.calc.money import ZERO
from quotes.calc.books.late import INTEREST, STORAGE, LateItem, interest_lines, storage_line
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.values import Late
from quotes.calc.shop import TaxCode
from quotes.models import Acceptance, Allocation, Booking, Customer, Invoice, InvoiceKind, OpenItem, Workshop
from quotes.queries.books.day import money_of
from quotes.queries.workshop import taxability

UNTAXED = ("O", "E", "Z")
"""Categories of tax under which nothing is charged, in the order in which interest looks for one."""


def proposed_interest(customer: Customer, on: date) -> tuple[DraftLine, ...]:
    """One line for each of the customer's late invoices, by the rate and grace frozen into it."""
    workshop = Workshop.objects.get_or_default()
    money = money_of(on, workshop)
    rows = (
        OpenItem.objects.filter(customer=customer, invoice__kind=InvoiceKind.INVOICE, due_on__lt=on)
        .order_by("due_on", "pk")
        .values_list("pk", "number", "due_on", "amount", "invoice__sheet__late")
    )
    asked, settled = _asked_up_to(INTEREST, customer=customer), _settled(customer)
    items = [
        LateItem(
            number=number,
            due_on=due_on,
            amount=amount,
            settled=tuple(settled[pk]),
            late=Late.model_validate(late),
            asked_up_to=asked.get(number),
        )
        for pk, number, due_on, amount, late in rows
        if amount > ZERO and due_on is not None
    ]
    return interest_lines(items, on, money.decimals, _untaxed(money.tax_codes, workshop))


def proposed_storage(build: Acceptance, on: date) -> DraftLine | None:
    """Storage of a build that is done, by the figures in its booking's confirmation; None without any.

    A build without a booking, or with one from before figures were kept, has no signed terms to go by.
    """
    if build.done_at is None:
        return None
    booking = Booking.objects.standing().filter(enquiry__quote=build.quote).values_list("sheet").first()
    terms = booking[0] if booking else {}
    free_days, a_day = terms.get("storage_free_days"), terms.get("storage_a_day")
    if free_days is None or a_day is None:
        return None
    workshop = Workshop.objects.get_or_default()
    number = str(build.quote.number)
    return storage_line(
        build=number,
        ready_on=timezone.localdate(build.done_at),
        on=on,
        free_days=free_days,
        a_day=Decimal(str(a_day)),
        decimals=money_of(on, workshop).decimals,
        tax_code=taxability(workshop)["labour"],
        asked_up_to=_asked_up_to(STORAGE, build=build).get(number),
    )


def _untaxed(codes: Mapping[str, TaxCode], workshop: Workshop) -> str:
    """A code under which nothing is charged, for interest is no supply; else labour's, to be changed."""
    for category in UNTAXED:
        for code, value in codes.items():
            if value.category == category:
                return code
    return taxability(workshop)["labour"]


def _settled(customer: Customer) -> dict[int, list[tuple[date, Decimal]]]:
    """Day and sum of all that has settled each of the customer's items; one query."""
    found: dict[int, list[tuple[date, Decimal]]] = defaultdict(list)
    rows = Allocation.objects.filter(debit__customer=customer).order_by("on", "pk")
    for debit, credit_on, on, amount in rows.values_list("debit_id", "credit__on", "on", "amount"):
        # Money that came before it was told what it settles was there from the day it came.
        found[debit].append((credit_on if amount > ZERO else on, amount))
    return found


def _asked_up_to(
    kind: str, *, customer: Customer | None = None, build: Acceptance | None = None
) -> dict[str, date]:
    """By invoice or build, the day up to which interest or storage stands on an invoice not credited."""
    rows = Invoice.objects.filter(kind__in=(InvoiceKind.INVOICE, InvoiceKind.CREDIT))
    rows = rows.filter(build=build) if build else rows.filter(customer=customer)
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
