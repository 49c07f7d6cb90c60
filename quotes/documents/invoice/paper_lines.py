"""The lines of an invoice as its table shows them, grouped by what they are for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.invoice.values import InvoiceLine, InvoiceSheet
from quotes.documents.invoice.amounts import MINUS, in_column
from quotes.documents.words import plain_name

GROUPS = (
    ("Bench work", ("labour",)),
    ("Parts", ("part",)),
    ("Machine work", ("machine_work",)),
    ("Consumables", ("consumables",)),
    ("Discount", ("discount",)),
    ("Freight, cores, storage and other", ("freight", "core", "storage", "interest", "other")),
    ("Deposits", ("deposit",)),
)


@dataclass(frozen=True, slots=True)
class LineRow:
    number: int
    description: str
    note: str
    quantity: str
    unit: str
    each: str
    tax: str
    net: str


@dataclass(frozen=True, slots=True)
class LineGroup:
    name: str
    rows: tuple[LineRow, ...]
    net: str


def line_groups(sheet: InvoiceSheet) -> Iterator[LineGroup]:
    """One group after the other, each with what it comes to."""
    for name, kinds in GROUPS:
        lines = [line for line in sheet.lines if line.kind in kinds]
        if lines:
            net = sum((line.net for line in lines), ZERO)
            yield LineGroup(name, tuple(_row(line, sheet) for line in lines), _net(net, sheet))


def _row(line: InvoiceLine, sheet: InvoiceSheet) -> LineRow:
    notes = [line.note, *(_adjusted(line, sheet))]
    quantity = f"{abs(line.quantity).normalize():,f}"
    return LineRow(
        number=line.number,
        description=plain_name(line.description),
        note=" ".join(filter(None, notes)),
        quantity=f"{MINUS}{quantity}" if line.quantity < ZERO else quantity,
        unit=line.unit,
        each="own part" if line.own_part else _each(line, sheet),
        tax="none" if line.category != "S" else f"{line.rate_pct.normalize():f} %",
        net=_net(line.net, sheet),
    )


def _each(line: InvoiceLine, sheet: InvoiceSheet) -> str:
    places = max(sheet.decimals, -int(line.unit_price.normalize().as_tuple().exponent))
    per = "" if line.price_base == 1 else f" for {line.price_base.normalize():f}"
    return f"{line.unit_price:,.{places}f}{per}"


def _adjusted(line: InvoiceLine, sheet: InvoiceSheet) -> Iterator[str]:
    for adjustment in line.adjustments:
        words = adjustment.reason or ("charge" if adjustment.kind == "charge" else "discount")
        yield f"{words}: {_net(adjustment.signed, sheet)}."


def _net(amount: Decimal, sheet: InvoiceSheet) -> str:
    return in_column(amount, sheet.decimals, sheet.language)
