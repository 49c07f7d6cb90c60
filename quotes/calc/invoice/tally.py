"""What has been asked for of a build so far: by accepted line, by deposit, and in all.

Credit notes count against what they take back. Sums are in the currency of the sheets.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.invoice.allowed import asked_of_build
from quotes.calc.invoice.values import InvoiceSheet


@dataclass(frozen=True, slots=True)
class Tally:
    """`quantities` and `nets` by key of the accepted line."""

    quantities: Mapping[str, Decimal]
    nets: Mapping[str, Decimal]
    deposits: Mapping[str, Decimal]
    """Net taken off, by key of the deposit line."""
    receipts: Mapping[str, Decimal]
    """Taken off of each deposit that was taken by receipt."""
    gross: Decimal
    """Asked for, with tax, as it counts against the yes."""


def tally(sheets: Iterable[InvoiceSheet]) -> Tally:
    """Add up the issued documents of one build.

    Deposit invoices, and credit notes on them, ask for nothing that was accepted: they only hold money.
    """
    quantities: dict[str, Decimal] = defaultdict(Decimal)
    nets: dict[str, Decimal] = defaultdict(Decimal)
    deposits: dict[str, Decimal] = defaultdict(Decimal)
    receipts: dict[str, Decimal] = defaultdict(Decimal)
    gross = ZERO
    for sheet in sheets:
        if of_deposit(sheet):
            continue
        gross += sheet.sign * asked_of_build(sheet.lines, sheet.sums, sheet.decimals)
        for prepayment in sheet.prepayments:
            receipts[prepayment.receipt] += sheet.sign * prepayment.amount
        for line in sheet.lines:
            if line.kind == "deposit":
                deposits[line.key] -= sheet.sign * line.net
            elif line.key:
                quantities[line.key] += sheet.sign * line.quantity
                nets[line.key] += sheet.sign * line.net
    return Tally(dict(quantities), dict(nets), dict(deposits), dict(receipts), gross)


def of_deposit(sheet: InvoiceSheet) -> bool:
    """Whether it is a deposit invoice or a credit note on one."""
    before = sheet.preceding[0].kind if sheet.kind == "credit_note" and sheet.preceding else sheet.kind
    return before == "deposit_invoice"
