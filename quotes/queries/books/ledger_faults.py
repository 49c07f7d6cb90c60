"""The ledger against itself and its documents: one line for each fault, none where everything agrees."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from django.db.models import F, Sum

from catalogue.calc.money import ZERO
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
from quotes.queries.books.exact import exact


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
    sums = JournalEntry.objects.annotate(debits=Sum("lines__debit"), credits=Sum("lines__credit"))
    for source, number, total, debits, credits in sums.order_by("on", "pk").values_list(
        "source", "number", "total", "debits", "credits"
    ):
        if not exact(total) == exact(debits) == exact(credits):
            yield (
                f"Entry {source} {number}: debits {exact(debits)}, credits {exact(credits)}, "
                f"total {exact(total)}."
            )


def _open_amounts() -> Iterator[str]:
    """What is open of each item is its amount less its allocations, and never the other way round."""
    settled: dict[int, Decimal] = {}
    for side, sign in (("debit", -1), ("credit", 1)):
        sums = Allocation.objects.order_by().values_list(f"{side}_id").annotate(sum=Sum("amount"))
        for pk, total in sums:
            settled[pk] = settled.get(pk, ZERO) + sign * exact(total)
    for pk, number, amount, open_amount in OpenItem.objects.order_by("on", "pk").values_list(
        "pk", "number", "amount", "open_amount"
    ):
        should = amount + settled.get(pk, ZERO)
        if open_amount != should:
            yield f"Item {number}: {open_amount} is open where its allocations leave {should}."
        if not min(amount, ZERO) <= should <= max(amount, ZERO):
            yield f"Item {number}: allocations leave {should} of {amount}."


def _without_entry() -> Iterator[str]:
    """Every document is in the journal; deposits from before the books are in the opening entry."""
    for rows, what in (
        (Invoice.objects.all(), "Document"),
        (Payment.objects.exclude(key__startswith="opening "), "Payment"),
        (WriteOff.objects.all(), "Write-off"),
    ):
        for number in rows.filter(entries=None).order_by("pk").values_list("number", flat=True):
            yield f"{what} {number} is not in the journal."


def _controls() -> Iterator[str]:
    """Accounts of the journal against the documents behind them."""
    sums = JournalLine.objects.order_by().values_list("role").annotate(sum=Sum(F("debit") - F("credit")))
    balances = {role: exact(total) for role, total in sums}
    if difference := sum(balances.values(), ZERO):
        yield f"Trial balance: debits and credits differ by {difference}."
    open_now = exact(OpenItem.objects.aggregate(sum=Sum("open_amount"))["sum"])
    for what, role, sign, documents in (
        ("Customers' open items, payments that settle nothing yet among them,", "receivables", 1, open_now),
        ("Deposits held by invoice and by receipt", "deposits_held", -1, _deposits()),
        ("Suppliers' bills not yet paid", "payables", -1, _unpaid_bills()),
    ):
        account = sign * balances.get(role, ZERO)
        if account != documents:
            yield f"{what} come to {documents}, the account {role} to {account}."


def _unpaid_bills() -> Decimal:
    """A bill that was taken back and the one that takes it back come to nought together."""
    return exact(SupplierBill.objects.filter(payment=None).aggregate(sum=Sum("gross"))["sum"])


def _deposits() -> Decimal:
    """Added up from the documents: deposit lines of sheets, receipts, what was taken off or given back."""
    held = ZERO
    documents = Invoice.objects.order_by()
    for kind, prepaid, lines in documents.values_list("kind", "prepaid", "sheet__lines").iterator():
        sign = -1 if kind == InvoiceKind.CREDIT else 1
        nets = (Decimal(str(line["net"])) for line in lines if line["kind"] == "deposit")
        held += sign * (sum(nets, ZERO) - prepaid)
    receipts = Payment.objects.filter(deposit=True).order_by()
    for kind, reverses, amount, owed in receipts.values_list(
        "kind", "reverses__kind", "amount", "item__amount"
    ):
        came_in = kind == PaymentKind.RECEIVED or reverses == PaymentKind.REFUND
        held += amount if came_in else (owed or ZERO) - amount
    return held


def _work_in_progress() -> Iterator[str]:
    """A build that is finally invoiced has nothing in progress."""
    settled = all_settled()
    lines = JournalLine.objects.filter(role="work_in_progress", build__isnull=False)
    sums = lines.order_by().values_list("build__quote__number")
    for number, total in sums.annotate(sum=Sum(F("debit") - F("credit"))):
        if number in settled and (left := exact(total)):
            yield f"Build {number} is finally invoiced and has {left} in progress."
