"""The ledger against itself and its documents: one line for each fault, none where everything agrees."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from django.db import connection
from django.db.models import DecimalField, F, OuterRef, Q, Subquery, Sum, Value
from django.db.models.functions import Coalesce, Round

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.models import (
    Allocation,
    Invoice,
    InvoiceKind,
    JournalEntry,
    JournalLine,
    OpenItem,
    Payment,
    PaymentKind,
    SupplierBill,
    WriteOff,
)
from quotes.queries.books.costs import all_settled
from quotes.queries.books.exact import DECIMALS, exact

NOUGHT = Value(ZERO)
DEPOSIT_LINES = {
    "sqlite": """
        SELECT SUM((CASE WHEN invoice.kind = 'credit_note' THEN -1 ELSE 1 END)
                   * CAST(json_extract(line.value, '$.net') AS REAL))
        FROM quotes_invoice AS invoice, json_each(invoice.sheet, '$.lines') AS line
        WHERE json_extract(line.value, '$.kind') = 'deposit'
    """,
    "postgresql": """
        SELECT SUM((CASE WHEN invoice.kind = 'credit_note' THEN -1 ELSE 1 END) * (line ->> 'net')::numeric)
        FROM quotes_invoice AS invoice
        CROSS JOIN LATERAL jsonb_array_elements(invoice.sheet -> 'lines') AS line
        WHERE line ->> 'kind' = 'deposit'
    """,
}
"""Thousands of sheets are too many to carry out of the database for the few lines that count here."""


def ledger_faults() -> tuple[str, ...]:
    """What does not agree, in words; the same number of queries for any number of documents."""
    return (
        *_entries(),
        *_open_amounts(),
        *_without_entry(),
        *_controls(),
        *_work_in_progress(),
    )


def _entries() -> Iterator[str]:
    """Each entry's debits are its credits and its total."""
    sums = JournalEntry.objects.annotate(
        debits=_as_kept(Coalesce(Sum("lines__debit"), NOUGHT)),
        credits=_as_kept(Coalesce(Sum("lines__credit"), NOUGHT)),
    )
    differ = sums.exclude(debits=_as_kept(F("total")), credits=_as_kept(F("total")))
    for source, number, total, debits, credits in differ.order_by("on", "pk").values_list(
        "source", "number", "total", "debits", "credits"
    ):
        sides = say(
            "debits {debits}, credits {credits}, total {total}",
            debits=exact(debits),
            credits=exact(credits),
            total=exact(total),
        )
        yield say("Entry {source} {number}: {sides}.", source=source, number=number, sides=sides)


def _open_amounts() -> Iterator[str]:
    """What is open of each item is its amount less its allocations, and never the other way round."""
    settled, given = _allocated("debit"), _allocated("credit")
    items = OpenItem.objects.annotate(
        should=_as_kept(F("amount") - Coalesce(settled, NOUGHT) + Coalesce(given, NOUGHT))
    )
    within = Q(should__gte=0, should__lte=_as_kept(F("amount"))) | Q(
        should__lte=0, should__gte=_as_kept(F("amount"))
    )
    odd = items.exclude(within & Q(should=_as_kept(F("open_amount"))))
    for number, amount, open_amount, left in odd.order_by("on", "pk").values_list(
        "number", "amount", "open_amount", "should"
    ):
        should = exact(left)
        if open_amount != should:
            yield say(
                "Item {number}: {open_amount} is open where its allocations leave {should}.",
                number=number,
                open_amount=open_amount,
                should=should,
            )
        if not min(amount, ZERO) <= should <= max(amount, ZERO):
            yield say(
                "Item {number}: allocations leave {should} of {amount}.",
                number=number,
                should=should,
                amount=amount,
            )


def _allocated(side: str) -> Subquery:
    rows = Allocation.objects.filter(**{side: OuterRef("pk")}).order_by().values(side)
    return Subquery(rows.annotate(sum=Sum("amount")).values("sum"))


def _as_kept(sum_of: Any) -> Round:
    """Rounded in the database to the decimals of the books: SQLite adds in floating point."""
    return Round(sum_of, precision=DECIMALS, output_field=DecimalField())


def _without_entry() -> Iterator[str]:
    """Every document is in the journal; deposits from before the books are in the opening entry."""
    for rows, what in (
        (Invoice.objects.all(), say("Document")),
        (Payment.objects.exclude(key__startswith="opening "), say("Payment")),
        (WriteOff.objects.all(), say("Write-off")),
    ):
        for number in rows.filter(entries=None).order_by("pk").values_list("number", flat=True):
            yield say("{what} {number} is not in the journal.", what=what, number=number)


def _controls() -> Iterator[str]:
    """Accounts of the journal against the documents behind them."""
    sums = JournalLine.objects.order_by().values_list("role").annotate(sum=Sum(F("debit") - F("credit")))
    balances = {role: exact(total) for role, total in sums}
    if difference := sum(balances.values(), ZERO):
        yield say("Trial balance: debits and credits differ by {difference}.", difference=difference)
    open_now = exact(OpenItem.objects.aggregate(sum=Sum("open_amount"))["sum"])
    for what, role, sign, documents in (
        (
            say("Customers' open items, payments that settle nothing yet among them,"),
            "receivables",
            1,
            open_now,
        ),
        (say("Deposits held by invoice and by receipt"), "deposits_held", -1, _deposits()),
        (say("Suppliers' bills not yet paid"), "payables", -1, _unpaid_bills()),
    ):
        account = sign * balances.get(role, ZERO)
        if account != documents:
            yield say(
                "{what} come to {documents}, the account {role} to {account}.",
                what=what,
                documents=documents,
                role=role,
                account=account,
            )


def _unpaid_bills() -> Decimal:
    """A bill that was taken back and the one that takes it back come to nought together."""
    return exact(SupplierBill.objects.filter(payment=None).aggregate(sum=Sum("gross"))["sum"])


def _deposits() -> Decimal:
    """Added up from the documents: deposit lines of sheets, receipts, what was taken off or given back."""
    with connection.cursor() as cursor:
        cursor.execute(DEPOSIT_LINES[connection.vendor])
        held = exact(Decimal(str(cursor.fetchone()[0] or 0)))
    taken_off = Invoice.objects.order_by().values_list("kind").annotate(sum=Sum("prepaid"))
    for kind, total in taken_off:
        held -= -exact(total) if kind == InvoiceKind.CREDIT else exact(total)
    receipts = Payment.objects.filter(deposit=True).order_by()
    for kind, reverses, amount, owed in receipts.values_list("kind", "reverses__kind").annotate(
        Sum("amount"), Sum("item__amount")
    ):
        came_in = kind == PaymentKind.RECEIVED or reverses == PaymentKind.REFUND
        held += exact(amount) if came_in else exact(owed) - exact(amount)
    return held


def _work_in_progress() -> Iterator[str]:
    """A build that is finally invoiced has nothing in progress."""
    settled = all_settled()
    lines = JournalLine.objects.filter(role="work_in_progress", build__isnull=False)
    sums = lines.order_by().values_list("build__quote__number")
    for number, total in sums.annotate(sum=Sum(F("debit") - F("credit"))):
        if number in settled and (left := exact(total)):
            yield say(
                "Build {number} is finally invoiced and has {left} in progress.", number=number, left=left
            )
