"""The sentences of the books' day sheet: what to do, where, what it comes to and since when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.urls import reverse
from django.utils import timezone

from catalogue.calc.said import say, say_count
from quotes.calc.said_days import said_month
from quotes.models import Acceptance, TaxStyle, Workshop
from quotes.queries.books import waiting
from quotes.queries.books.chart import books_settings
from quotes.queries.books.export_look import last_batch
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
    missing = [] if settings.country else [say("your country")]
    if Workshop.objects.get_or_default().tax_style == TaxStyle.VALUE_ADDED_TAX:
        missing += [] if settings.iban else [say("your IBAN")]  # with sales tax, few are paid by one
    if missing:
        what = say("{one} and {other}", one=missing[0], other=missing[1]) if missing[1:] else missing[0]
        yield Line(say("Set up the books: {what} not given", what=what), reverse("accounts"))


def _overdue(on: date) -> Iterator[Line]:
    heap = waiting.overdue_heap(on)
    if heap.count:
        what = say_count(
            "Ask for the money: {count} document is overdue",
            "Ask for the money: {count} documents are overdue",
            heap.count,
        )
        yield Line(what, reverse("overdue"), heap.total, heap.oldest, must=True)


def _bills(on: date) -> Iterator[Line]:
    heap = waiting.bills_heap(on)
    if heap.count:
        what = say_count(
            "Pay: {count} bill is due within the week, or overdue",
            "Pay: {count} bills are due within the week, or overdue",
            heap.count,
        )
        late = heap.oldest is not None and heap.oldest <= on
        yield Line(what, reverse("bill-list"), heap.total, heap.oldest, late)


def _to_invoice() -> Iterator[Line]:
    for build in waiting.done_not_invoiced(waiting.MOST_OF_BOOKS):
        yield to_invoice(build)


def to_invoice(build: Acceptance) -> Line:
    """A build that is done and not invoiced."""
    done = timezone.localdate(build.done_at) if build.done_at else None
    what = say(
        "Invoice {quote}, {tier}, {customer}: done, not invoiced",
        quote=build.quote.title,
        tier=say(build.tier_name),
        customer=build.quote.customer,
    )
    return Line(what, reverse("build-money", args=[build.pk]), build.gross, done)


def _bank() -> Iterator[Line]:
    if count := waiting.bank_lines_waiting():
        what = say_count(
            "Look at the bank: {count} line of a bank file waits to be taken or put aside",
            "Look at the bank: {count} lines of bank files wait to be taken or put aside",
            count,
        )
        yield Line(what, reverse("bank-list"))


def _export() -> Iterator[Line]:
    if count := waiting.not_exported():
        batch = last_batch()
        day = timezone.localdate(batch.made_at) if batch else None
        yield Line(_to_export(count, batch.number if batch else ""), reverse("export-new"), None, day)


def _to_export(count: int, batch: str) -> str:
    if not batch:
        return say_count(
            "Export: {count} entry not handed to the accounts yet",
            "Export: {count} entries not handed to the accounts yet",
            count,
        )
    return say_count(
        "Export: {count} entry not handed to the accounts since {batch}",
        "Export: {count} entries not handed to the accounts since {batch}",
        count,
        batch=batch,
    )


def _month(on: date) -> Iterator[Line]:
    if month := month_to_close(on):
        yield Line(
            say("Close {month}: it is over and still open", month=said_month(month)),
            reverse("months"),
            None,
            month,
        )
