"""What leaves for the accounts: a posted entry with its document, and the sheets it is set out on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal, NamedTuple

from quotes.calc.books.tax_written_off import TaxContained
from quotes.calc.invoice.values import InvoiceSheet

CellKind = Literal["text", "money", "date", "number", "count"]
CellValue = str | int | Decimal | date | None
Cells = tuple[CellValue, ...]
SheetName = Literal[
    "Sales journal",
    "Lines",
    "Tax summary",
    "Payments",
    "Journal",
    "Open items",
    "Deposits held",
    "Control",
]


class Column(NamedTuple):
    """One column of a sheet: `kind` says how a cell is set, `width` counts characters."""

    heading: str
    kind: CellKind
    width: int


def _columns(*columns: tuple[str, CellKind, int]) -> tuple[Column, ...]:
    return tuple(Column(*column) for column in columns)


COLUMNS: dict[SheetName, tuple[Column, ...]] = {
    "Sales journal": _columns(
        ("Issued", "date", 12),
        ("Number", "text", 16),
        ("Kind", "text", 16),
        ("Refers to", "text", 16),
        ("Customer", "text", 28),
        ("Country", "text", 9),
        ("Tax registration", "text", 18),
        ("Build", "text", 16),
        ("Supplied", "date", 12),
        ("To pay by", "date", 12),
        ("Net", "money", 14),
        ("Tax", "money", 14),
        ("Gross", "money", 14),
        ("Paid before", "money", 14),
        ("Due", "money", 14),
        ("Currency", "text", 9),
    ),
    "Lines": _columns(
        ("Number", "text", 16),
        ("Issued", "date", 12),
        ("Line", "count", 6),
        ("Kind", "text", 14),
        ("Item", "text", 44),
        ("Quantity", "number", 10),
        ("Unit", "text", 10),
        ("Each", "number", 12),
        ("Net", "money", 14),
        ("Tax code", "text", 12),
        ("Category", "text", 9),
        ("Rate %", "number", 9),
        ("Customer", "text", 28),
        ("Build", "text", 16),
        ("Component", "text", 18),
        ("Note", "text", 30),
    ),
    "Tax summary": _columns(
        ("Side", "text", 12),
        ("Tax code", "text", 14),
        ("Category", "text", 9),
        ("Rate %", "number", 9),
        ("Component", "text", 24),
        ("Of which rate %", "number", 16),
        ("Taxable", "money", 16),
        ("Tax", "money", 14),
        ("Documents", "count", 11),
    ),
    "Payments": _columns(
        ("Day", "date", 12),
        ("Number", "text", 16),
        ("Kind", "text", 12),
        ("Customer", "text", 28),
        ("Build", "text", 16),
        ("Method", "text", 14),
        ("Amount", "money", 14),
        ("Currency", "text", 9),
        ("Reference", "text", 30),
        ("Deposit", "text", 9),
        ("Takes back", "text", 16),
    ),
    "Journal": _columns(
        ("Entry", "count", 9),
        ("Day", "date", 12),
        ("Source", "text", 16),
        ("Document", "text", 16),
        ("Party", "text", 28),
        ("Account", "text", 11),
        ("Account name", "text", 26),
        ("Debit", "money", 14),
        ("Credit", "money", 14),
        ("Text", "text", 40),
        ("Tax code", "text", 12),
        ("Rate %", "number", 9),
        ("Build", "text", 16),
    ),
    "Open items": _columns(
        ("Day", "date", 12),
        ("Number", "text", 16),
        ("Kind", "text", 16),
        ("Customer", "text", 28),
        ("Build", "text", 16),
        ("To pay by", "date", 12),
        ("Sum", "money", 14),
        ("Open", "money", 14),
        ("Days late", "count", 10),
    ),
    "Deposits held": _columns(
        ("Build", "text", 16),
        ("Customer", "text", 28),
        ("Held", "money", 14),
    ),
    "Control": _columns(
        ("What", "text", 44),
        ("Where from", "text", 34),
        ("Comes to", "money", 18),
        ("Held against", "text", 34),
        ("Which comes to", "money", 18),
        ("Apart by", "money", 14),
        ("Word", "text", 10),
    ),
}
"""The sheets of the workbook, in their order."""


@dataclass(frozen=True, slots=True)
class PostedLine:
    """One side of an entry, as it was posted."""

    role: str
    account: str
    account_name: str
    debit: Decimal
    credit: Decimal
    text: str
    tax_code: str
    rate_pct: Decimal | None
    build: str


@dataclass(frozen=True, slots=True)
class IssuedDocument:
    """An invoice, credit note or deposit invoice. `sheet` is None where the frozen one can't be read.

    `unaltered`: the frozen sheet still has the fingerprint that it was issued under. Sums are those of the
    list, which must be those of the sheet.
    """

    number: str
    build: str
    sheet: InvoiceSheet | None
    unaltered: bool
    net: Decimal
    tax: Decimal
    gross: Decimal


@dataclass(frozen=True, slots=True)
class PaidDocument:
    """Money in (above nought) or out."""

    number: str
    kind: str
    on: date
    customer: str
    build: str
    method: str
    amount: Decimal
    currency: str
    reference: str
    deposit: bool
    takes_back: str


@dataclass(frozen=True, slots=True)
class BillDocument:
    """A supplier's bill; its sums are negative where it gives money back."""

    number: str
    net: Decimal
    tax: Decimal


@dataclass(frozen=True, slots=True)
class ExportEntry:
    """A posted entry with the document that it came from."""

    pk: int
    on: date
    source: str
    number: str
    party: str
    text: str
    total: Decimal
    lines: tuple[PostedLine, ...]
    invoice: IssuedDocument | None = None
    payment: PaidDocument | None = None
    bill: BillDocument | None = None
    written_off: tuple[TaxContained, ...] = ()
    """Of a write-off: the tax contained in it."""


@dataclass(frozen=True, slots=True)
class OpenAsOf:
    """A line of a customer's account that was not settled on the day."""

    on: date
    number: str
    kind: str
    customer: str
    build: str
    due_on: date | None
    amount: Decimal
    open_amount: Decimal


@dataclass(frozen=True, slots=True)
class HeldAsOf:
    """Deposits held for a build on the day."""

    build: str
    customer: str
    amount: Decimal
