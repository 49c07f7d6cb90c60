"""Posting: an entry is written once, with its lines, in the transaction of its document."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime, timedelta

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.calc.money import ZERO
from quotes.actions.audit.bulk import add_all
from quotes.actions.books.numbers import GATE
from quotes.actions.books.refused_months import MonthClosed
from quotes.calc.books.values import Entry
from quotes.models import (
    Acceptance,
    Counter,
    Invoice,
    JournalEntry,
    JournalLine,
    MonthLock,
    Payment,
    SupplierBill,
    WriteOff,
)
from quotes.queries.people import name_of

LONGEST_TEXT = 300
LONGEST_PARTY = 200


@transaction.atomic
def post(
    *,
    entry: Entry,
    by: User,
    now: datetime,
    invoice: Invoice | None = None,
    payment: Payment | None = None,
    write_off: WriteOff | None = None,
    bill: SupplierBill | None = None,
    builds: Mapping[str, Acceptance] | None = None,
) -> JournalEntry:
    """Write an entry beside its document. MonthClosed where its day is in a closed month.

    Call it after the document has taken its number: whoever closes a month waits for the counters, so a
    document is either in the month before it closes or is refused.
    """
    if write_off is None and payment is None and invoice is None:
        pass_the_gate()
    refuse_closed(entry.on)
    row = JournalEntry(
        on=entry.on,
        source=entry.source,
        number=entry.number,
        party=entry.party[:LONGEST_PARTY],
        text=entry.text[:LONGEST_TEXT],
        invoice=invoice,
        payment=payment,
        write_off=write_off,
        bill=bill,
        total=sum((line.debit for line in entry.lines), ZERO),
        posted_at=now,
        posted_by=name_of(by),
    )
    row.save()
    add_all(JournalLine, _rows(row, entry, _builds(entry, builds or {})))
    return row


def _rows(row: JournalEntry, entry: Entry, builds: Mapping[str, Acceptance]) -> Iterable[JournalLine]:
    for order, line in enumerate(entry.lines):
        yield JournalLine(
            entry=row,
            order=order,
            role=line.account.role,
            account=line.account.code,
            account_name=line.account.name,
            debit=line.debit,
            credit=line.credit,
            text=line.text[:LONGEST_TEXT],
            tax_code=line.tax_code,
            rate_pct=line.rate_pct,
            build=builds[line.build] if line.build else None,
        )


def _builds(entry: Entry, given: Mapping[str, Acceptance]) -> dict[str, Acceptance]:
    """The build of every number in the entry; one query where some were not given."""
    known = dict(given)
    missing = {line.build for line in entry.lines if line.build} - known.keys()
    if missing:
        found = Acceptance.objects.filter(quote__number__in=missing).select_related("quote")
        known |= {str(row.quote.number): row for row in found.defer("quote__request")}
    return known


def refuse_closed(day: date) -> None:
    """MonthClosed, with the first day after it that is free, where the month of that day is closed."""
    closed = set(
        MonthLock.objects.standing().filter(month__gte=day.replace(day=1)).values_list("month", flat=True)
    )
    month = day.replace(day=1)
    while month in closed:
        month = first_of_next(month)
    if month > day:
        raise MonthClosed(day, month)


def first_of_next(month: date) -> date:
    """The first day of the month after."""
    return (month.replace(day=1) + timedelta(days=32)).replace(day=1)


def pass_the_gate() -> None:
    """Hold the gate until the transaction ends; nobody closes a month meanwhile."""
    Counter.objects.get_or_create(kind=GATE, year=0)
    Counter.objects.select_for_update().get(kind=GATE, year=0)
