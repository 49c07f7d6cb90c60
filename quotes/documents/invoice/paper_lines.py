"""The lines of an invoice as its table shows them, grouped by what they are for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.invoice.values import InvoiceLine, InvoiceSheet
from quotes.documents.invoice.amounts import MINUS, in_column, places_of, rate_figure
from quotes.documents.words import figure, plain_name

GROUPS = (
    (to_say("Bench work"), ("labour",)),
    (to_say("Parts"), ("part",)),
    (to_say("Machine work"), ("machine_work",)),
    (to_say("Consumables"), ("consumables",)),
    (to_say("Discount"), ("discount",)),
    (to_say("Freight, cores, storage and other"), ("freight", "core", "storage", "interest", "other")),
    (to_say("Deposits"), ("deposit",)),
)


ADJUSTED = {"charge": to_say("charge"), "allowance": to_say("discount")}


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
            yield LineGroup(say(name), tuple(_row(line, sheet) for line in lines), _net(net, sheet))


def _row(line: InvoiceLine, sheet: InvoiceSheet) -> LineRow:
    notes = [line.note, *(_adjusted(line, sheet))]
    quantity = figure(abs(line.quantity), places_of(line.quantity), sheet.language)
    return LineRow(
        number=line.number,
        description=plain_name(line.description),
        note=" ".join(filter(None, notes)),
        quantity=f"{MINUS}{quantity}" if line.quantity < ZERO else quantity,
        unit=say(line.unit) if line.unit else "",
        each=say("own part") if line.own_part else _each(line, sheet),
        tax=say("none") if line.category != "S" else f"{rate_figure(line.rate_pct, sheet.language)} %",
        net=_net(line.net, sheet),
    )


def _each(line: InvoiceLine, sheet: InvoiceSheet) -> str:
    price = figure(line.unit_price, max(sheet.decimals, places_of(line.unit_price)), sheet.language)
    if line.price_base == 1:
        return price
    return say("{price} for {count}", price=price, count=rate_figure(line.price_base, sheet.language))


def _adjusted(line: InvoiceLine, sheet: InvoiceSheet) -> Iterator[str]:
    for adjustment in line.adjustments:
        words = adjustment.reason or say(ADJUSTED[adjustment.kind])
        yield f"{words}: {_net(adjustment.signed, sheet)}."


def _net(amount: Decimal, sheet: InvoiceSheet) -> str:
    return in_column(amount, sheet.decimals, sheet.language)
