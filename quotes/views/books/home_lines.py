"""The sentences of the books' day sheet: what to do, where, what it comes to and since when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.urls import reverse
from django.utils import timezone

from quotes.models import Acceptance, TaxStyle, Workshop
from quotes.queries.books import waiting
from quotes.queries.books.export_look import last_batch
from quotes.queries.books.ledger import books_settings
from quotes.queries.books.months import month_to_close


@dataclass(frozen=True, slots=True)
class Line:
    """One sentence. `must` says that it is for today."""

    what: str
    url: str
    amount: Decimal | None = None
    since: date | None = None
    must: bool = False


def lines(on: date, *, builds: bool = True) -> list[Line]:
    """Everything that waits, what must be done today first; `builds` lists those to invoice."""
    found = [
        *_set_up(),
        *_overdue(on),
        *_bills(on),
        *(_to_invoice() if builds else ()),
        *_bank(),
        *_export(),
        *_month(on),
    ]
    return sorted(found, key=lambda line: not line.must)


def _set_up() -> Iterator[Line]:
    settings = books_settings()
    wanted = [("your country", settings.country)]
    if Workshop.objects.get_or_default().tax_style == TaxStyle.VALUE_ADDED_TAX:
        wanted.append(("your IBAN", settings.iban))  # shops with sales tax are seldom paid by one
    missing = [words for words, value in wanted if not value]
    if missing:
        yield Line(f"Set up the books: {' and '.join(missing)} not given", reverse("accounts"))


def _overdue(on: date) -> Iterator[Line]:
    heap = waiting.overdue_heap(on)
    if heap.count:
        many = "1 document is overdue" if heap.count == 1 else f"{heap.count} documents are overdue"
        yield Line(f"Ask for the money: {many}", reverse("overdue"), heap.total, heap.oldest, must=True)


def _bills(on: date) -> Iterator[Line]:
    heap = waiting.bills_heap(on)
    if heap.count:
        many = "1 bill is due" if heap.count == 1 else f"{heap.count} bills are due"
        late = heap.oldest is not None and heap.oldest <= on
        yield Line(
            f"Pay: {many} within the week, or overdue", reverse("bill-list"), heap.total, heap.oldest, late
        )


def _to_invoice() -> Iterator[Line]:
    for build in waiting.done_not_invoiced():
        yield to_invoice(build)


def to_invoice(build: Acceptance) -> Line:
    """A build that is done and not invoiced."""
    done = timezone.localdate(build.done_at) if build.done_at else None
    what = f"Invoice {build.quote.title}, {build.tier_name}, {build.quote.customer}: done, not invoiced"
    return Line(what, reverse("build-money", args=[build.pk]), build.gross, done)


def _bank() -> Iterator[Line]:
    if count := waiting.bank_lines_waiting():
        many = "1 line of a bank file waits" if count == 1 else f"{count} lines of bank files wait"
        yield Line(f"Look at the bank: {many} to be taken or put aside", reverse("bank-list"))


def _export() -> Iterator[Line]:
    if count := waiting.not_exported():
        batch = last_batch()
        many = "1 entry" if count == 1 else f"{count} entries"
        since = f"since {batch.number}" if batch else "yet"
        day = timezone.localdate(batch.made_at) if batch else None
        yield Line(f"Export: {many} not handed to the accounts {since}", reverse("export-new"), None, day)


def _month(on: date) -> Iterator[Line]:
    if month := month_to_close(on):
        yield Line(f"Close {month:%B %Y}: it is over and still open", reverse("months"), None, month)
