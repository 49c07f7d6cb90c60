"""Documents in the books as they stand after they were issued, put there without the desk's steps.

The sums are added up by hand here, so that an export is not checked against the code that made it.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

from quotes.actions.books.journal import post
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.books.accounts import DEFAULT_ACCOUNTS
from quotes.calc.books.posting import MoneyMoved, invoice_entry, payment_entry
from quotes.calc.invoice.values import InvoiceLine, InvoiceSheet, Kind, Sums
from quotes.calc.sheet.issued_values import Party
from quotes.calc.sheet.line_values import TaxGroup
from quotes.models import (
    Customer,
    Invoice,
    InvoiceDraft,
    JournalEntry,
    OpenItem,
    Payment,
    StoredFile,
)
from tests.cast import books

NOW = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
ON = NOW.date()
RATE = Decimal(6)


def customer(name: str = "Marel Otten") -> Customer:
    return Customer.objects.get_or_create(name=name, defaults={"created_at": NOW})[0]


def line(number: int, net: str, description: str = "Hone six bores", **change: Any) -> InvoiceLine:
    """One taxed part line."""
    fields: dict[str, Any] = {
        "number": number,
        "kind": "part",
        "description": description,
        "quantity": Decimal(1),
        "unit": "each",
        "unit_code": "C62",
        "unit_price": Decimal(net),
        "net": Decimal(net),
        "tax_code": "sales",
        "category": "S",
        "rate_pct": RATE,
    }
    return InvoiceLine(**(fields | change))


def sheet(number: str, nets: Sequence[str] = ("100.00", "50.50"), **change: Any) -> InvoiceSheet:
    """A sheet at 6 per cent, in two components, with tax to the cent as worked out on paper."""
    lines = tuple(line(place, net) for place, net in enumerate(nets, start=1))
    lines = change.pop("lines", lines)
    net = sum((one.net for one in lines), Decimal(0))
    tax = _tax(net)
    state = tax - Decimal("0.01") if tax else tax
    group = TaxGroup(
        code="sales",
        category="S",
        rate_pct=RATE,
        taxable=net,
        tax=tax,
        components=(("State", Decimal(5), state), ("County", Decimal(1), tax - state)),
    )
    prepaid = change.pop("prepaid", Decimal(0))
    sums = Sums(
        line_total=net,
        net=net,
        tax=tax,
        gross=net + tax,
        prepaid=prepaid,
        due=net + tax - prepaid,
        tax_groups=(group,),
    )
    fields: dict[str, Any] = {
        "kind": "invoice",
        "number": number,
        "issued_on": ON,
        "due_on": date(2026, 12, 9),
        "payment_words": "Before the engine leaves the workshop",
        "supplied_on": ON,
        "currency": "USD",
        "decimals": 2,
        "tax_style": "sales-tax",
        "seller": Party(name="Sorrel Yard Engines"),
        "seller_country": "US",
        "buyer": Party(name="Marel Otten"),
        "buyer_country": "US",
        "lines": lines,
        "sums": sums,
    }
    return InvoiceSheet(**(fields | change))


def _tax(net: Decimal) -> Decimal:
    """6 per cent, halves away from zero, by whole cents."""
    cents = int(abs(net) * 100)
    tax = Decimal((cents * 6 + 50) // 100) / 100
    return tax if net >= 0 else -tax


def issued(number: str, nets: Sequence[str] = ("100.00", "50.50"), **change: Any) -> Invoice:
    """An invoice in the books: the frozen sheet, its open item, its entry."""
    of = change.pop("of", None)
    original = change.pop("original", None)
    frozen = sheet(number, nets, **change)
    row = keep_sheet(frozen, of or customer(), original)
    OpenItem.objects.create(
        customer=row.customer,
        kind=row.kind,
        number=number,
        on=row.issued_on,
        due_on=row.due_on,
        amount=frozen.sign * row.due,
        open_amount=frozen.sign * row.due,
        invoice=row,
    )
    post(entry=invoice_entry(frozen, DEFAULT_ACCOUNTS), by=books(), now=NOW, invoice=row)
    return row


def keep_sheet(frozen: InvoiceSheet, of: Customer, original: Invoice | None = None) -> Invoice:
    draft = InvoiceDraft.objects.create(
        kind=frozen.kind,
        customer=of,
        original=original,
        content={},
        started_by=books(),
        started_at=NOW,
        edited_at=NOW,
        issued_on=frozen.issued_on,
    )
    row = Invoice(
        kind=frozen.kind,
        number=frozen.number,
        customer=of,
        original=original,
        draft=draft,
        sheet=frozen.model_dump(mode="json"),
        sheet_sha256=fingerprint(frozen),
        issued_on=frozen.issued_on,
        issued_at=NOW,
        issued_by=books(),
        due_on=frozen.due_on,
        currency=frozen.currency,
        net=frozen.sums.net,
        tax=frozen.sums.tax,
        gross=frozen.sums.gross,
        prepaid=frozen.sums.prepaid,
        due=frozen.sums.due,
        pdf=StoredFile.objects.create(
            name="i.pdf", content_type="application/pdf", sha256="0" * 64, held=b"%PDF", made_at=NOW
        ),
    )
    row.save(force_insert=True)
    return row


def credited(number: str, nets: Sequence[str], of: Invoice) -> Invoice:
    """A credit note against an invoice."""
    kind: Kind = "credit_note"
    return issued(number, nets, kind=kind, original=of, due_on=None)


def paid(number: str, amount: str, method: str = "transfer", **change: Any) -> Payment:
    """Money that came in, or with `kind="refund"` went out, not allocated to anything."""
    fields: dict[str, Any] = {
        "kind": "received",
        "number": number,
        "customer": customer(),
        "on": ON,
        "amount": Decimal(amount),
        "currency": "USD",
        "method": method,
        "key": number,
        "taken_by": books(),
        "taken_at": NOW,
    }
    row = Payment(**(fields | change))
    row.save(force_insert=True)
    came_in = row.kind == "received"
    signed = -row.amount if came_in else row.amount
    OpenItem.objects.create(
        customer=row.customer,
        kind="payment" if came_in else "refund",
        number=number,
        on=row.on,
        amount=signed,
        open_amount=signed,
        payment=row,
    )
    moved = MoneyMoved(
        on=row.on,
        number=number,
        party=row.customer.name,
        method=row.method,
        amount=row.amount,
        came_in=came_in,
    )
    post(entry=payment_entry(moved, DEFAULT_ACCOUNTS), by=books(), now=NOW, payment=row)
    return row


def entries() -> list[str]:
    """Numbers of the documents in the journal, in its order."""
    return list(JournalEntry.objects.order_by("pk").values_list("number", flat=True))
