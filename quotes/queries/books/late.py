"""What the signed terms let an invoice ask for on top: interest on what is late, and storage."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from django.utils import timezone

from catalogue.calc.money import ZERO
from quotes.calc.books.late import INTEREST, STORAGE, LateItem, interest_lines, storage_line
from quotes.calc.invoice.draft import DraftLine
from quotes.models import Acceptance, Booking, Customer, Invoice, OpenItem, Workshop
from quotes.queries.books.day import MoneyOfDay, money_of
from quotes.queries.books.sheets import sheet_of_invoice
from quotes.queries.enquiry import booking_terms
from quotes.queries.sheets import sheet_of
from quotes.queries.workshop import taxability

OUTSIDE = "O"
"""Category of what is outside the scope of tax, as interest for paying late is."""


@dataclass(frozen=True, slots=True)
class Proposed:
    """A line with the sentence of the terms that it rests on."""

    line: DraftLine
    terms: str


def proposed_lines(customer: Customer, build: Acceptance | None, on: date) -> list[Proposed]:
    """Interest on every late invoice of the customer, and storage of the build: proposed, never added."""
    money = money_of(on)
    found = _interest(customer, on, money)
    storage = _storage(build, on, money) if build and build.done_at else None
    return [*found, *([storage] if storage else [])]


def _interest(customer: Customer, on: date, money: MoneyOfDay) -> list[Proposed]:
    rows = OpenItem.objects.overdue(on).filter(customer=customer, invoice__kind="invoice")
    items = list(rows.select_related("invoice").prefetch_related("settled_by").order_by("due_on", "pk"))
    if not items:
        return []
    asked = _asked_up_to(
        Invoice.objects.filter(customer=customer, kind="invoice", credit_notes=None), INTEREST
    )
    late = [_late(item, asked) for item in items]
    lines = interest_lines(late, on, money.decimals, _interest_code(money))
    return [Proposed(line, _interest_terms(late, line)) for line in lines]


def _late(item: OpenItem, asked: Mapping[str, date]) -> LateItem:
    assert item.invoice is not None
    assert item.due_on is not None
    return LateItem(
        number=item.number,
        due_on=item.due_on,
        amount=item.amount,
        settled=tuple((each.on, each.amount) for each in item.settled_by.all()),
        late=sheet_of_invoice(item.invoice).late,
        asked_up_to=asked.get(item.number),
    )


def _interest_terms(late: Sequence[LateItem], line: DraftLine) -> str:
    item = next(item for item in late if line.key.startswith(f"{INTEREST}:{item.number}:"))
    rate = f"{item.late.rate_pct_a_year.normalize():f}"
    return f"{item.number} says: {rate} % a year from {item.late.after_days} days after its day of payment."


def _interest_code(money: MoneyOfDay) -> str:
    """A code outside the scope of tax where the workshop has one, else that of its work."""
    outside = [code for code, value in money.tax_codes.items() if value.category == OUTSIDE]
    return outside[0] if outside else _work_code(money)


def _work_code(money: MoneyOfDay) -> str:
    code = taxability(Workshop.objects.get_or_default())["labour"]
    return code if code in money.tax_codes else next(iter(money.tax_codes))


def _asked_up_to(invoices: Iterable[Invoice], kind: str) -> dict[str, date]:
    """The last day up to which a document has asked for it, by invoice number or build."""
    found: dict[str, date] = defaultdict(lambda: date.min)
    for invoice in invoices:
        for line in sheet_of_invoice(invoice).lines:
            sort, _, rest = line.key.partition(":")
            what, _, day = rest.rpartition(":")
            if sort == kind and what:
                found[what] = max(found[what], date.fromisoformat(day))
    return dict(found)


def _storage(build: Acceptance, on: date, money: MoneyOfDay) -> Proposed | None:
    terms, said = booking_terms(), _storage_terms(build)
    if not said or terms.storage_a_day == ZERO:
        return None
    assert build.done_at is not None
    number = str(build.quote.number)
    invoices = Invoice.objects.of_build(build.pk).filter(kind="invoice", credit_notes=None)
    line = storage_line(
        build=number,
        ready_on=timezone.localdate(build.done_at),
        on=on,
        free_days=terms.storage_free_days,
        a_day=terms.storage_a_day,
        decimals=money.decimals,
        tax_code=_work_code(money),
        asked_up_to=_asked_up_to(invoices, STORAGE).get(number),
    )
    return Proposed(line, said) if line else None


def _storage_terms(build: Acceptance) -> str:
    """The sentence about storage that was agreed to with the booking or the yes; nothing where none was."""
    bookings = Booking.objects.standing().filter(enquiry__quote=build.quote_id)
    booked = bookings.exclude(terms_agreed_on=None).first()
    sentences = [*(booked.sheet.get("storage", []) if booked else []), *sheet_of(build.revision).terms]
    return next((each for each in sentences if "stor" in each.lower()), "")
