"""What has been asked for of a build so far: by accepted line, by deposit, and in all.

Credit notes count against what they take back. Sums are in the currency of the sheets.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.invoice.values import Adjustment, InvoiceLine, InvoiceSheet, LineKind

APART: frozenset[LineKind] = frozenset({"storage", "interest", "core", "deposit"})
"""What a line may be for without any acceptance: the signed terms ask for it, or it only moves money."""


@dataclass(frozen=True, slots=True)
class Tally:
    """`quantities` by key of the accepted line; `deposits` the net taken off by key of the deposit line."""

    quantities: Mapping[str, Decimal]
    deposits: Mapping[str, Decimal]
    receipts: Mapping[str, Decimal]
    """Taken off of each deposit that was taken by receipt."""
    gross: Decimal
    """Asked for, with tax, apart from what needs no acceptance."""


def tally(sheets: Iterable[InvoiceSheet]) -> Tally:
    """Add up the issued documents of one build; deposit invoices themselves ask for nothing accepted."""
    quantities: dict[str, Decimal] = defaultdict(Decimal)
    deposits: dict[str, Decimal] = defaultdict(Decimal)
    receipts: dict[str, Decimal] = defaultdict(Decimal)
    gross = ZERO
    for sheet in sheets:
        if sheet.kind == "deposit_invoice":
            continue
        gross += sheet.sign * asked_gross(sheet.lines, sheet.adjustments, sheet.decimals)
        for prepayment in sheet.prepayments:
            receipts[prepayment.receipt] += sheet.sign * prepayment.amount
        for line in sheet.lines:
            if line.kind == "deposit":
                key, amount = _deposit_used(sheet, line)
                deposits[key] += amount
            elif line.key:
                quantities[line.key] += sheet.sign * line.quantity
    return Tally(dict(quantities), dict(deposits), dict(receipts), gross)


def deposit_key(number: str, tax_code: str) -> str:
    """Names what one deposit invoice holds at one tax code."""
    return f"deposit:{number}:{tax_code}"


def _deposit_used(sheet: InvoiceSheet, line: InvoiceLine) -> tuple[str, Decimal]:
    """Which deposit a line takes off, and how much net; below nought where it gives it back.

    A credit note of the deposit invoice itself uses it up: there is nothing left to take off.
    """
    if sheet.kind == "credit_note" and sheet.preceding[0].kind == "deposit_invoice":
        return deposit_key(sheet.preceding[0].number, line.tax_code), line.net
    return line.key, -sheet.sign * line.net


def asked_gross(lines: Iterable[InvoiceLine], adjustments: Iterable[Adjustment], decimals: int) -> Decimal:
    """What a document asks for that rests on an acceptance, with its tax."""
    taxable: dict[tuple[str, Decimal], Decimal] = defaultdict(Decimal)
    for line in lines:
        if line.kind not in APART:
            taxable[line.category, line.rate_pct] += line.net
    for part in adjustments:
        taxable[part.category, part.rate_pct] += part.signed
    tax = (round_half_up(net * rate / 100, decimals) for (_, rate), net in taxable.items())
    return sum(taxable.values(), ZERO) + sum(tax, ZERO)
