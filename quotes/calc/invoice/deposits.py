"""Deposits by invoice: what is asked, split over the taxes of what was accepted, and taken off again."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from catalogue.calc.money import HUNDRED, ZERO, round_half_up
from catalogue.calc.said import say
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.line_tax import LineTax
from quotes.calc.invoice.sums import draft_sums
from quotes.calc.invoice.values import InvoiceSheet
from quotes.calc.money.tax import tax_code_of
from quotes.calc.sheet.line_values import TaxGroup
from quotes.calc.shop import TaxCode


class NothingToDeposit(ValueError):
    """What was accepted comes to nothing, so no share of it can be asked."""


def deposit_draft(
    asked: Decimal,
    groups: Sequence[TaxGroup],
    tax_codes: Mapping[str, TaxCode],
    *,
    decimals: int,
    words: str,
) -> Draft:
    """A deposit invoice whose amount due is `asked`, with tax, split over `groups` by their sums with tax.

    Not every sum with tax can be had: 0.03 at 20 % can't. What is missing then is the document's rounding
    (BT-114), so that the customer is asked for what he was told. Raises NothingToDeposit.
    """
    asked = round_half_up(asked, decimals)
    bearing = [group for group in groups if group.taxable + group.tax > ZERO]
    if asked <= ZERO or not bearing:
        raise NothingToDeposit(f"a deposit of {asked} on {len(bearing)} sums")
    lines = tuple(
        _asked(group.code, _net(share, tax_code_of(group.code, tax_codes).rate_pct, decimals), words)
        for group, share in zip(bearing, _shares(asked, bearing, decimals), strict=True)
    )
    draft = Draft(lines=tuple(line for line in lines if line.unit_price))
    gross = draft_sums(draft, tax_codes, decimals).gross
    return draft.model_copy(update={"rounding": asked - gross})


def _shares(asked: Decimal, groups: Sequence[TaxGroup], decimals: int) -> list[Decimal]:
    """In proportion to each group's sum with tax; what rounding leaves over goes to the largest."""
    sums = [group.taxable + group.tax for group in groups]
    whole = sum(sums, ZERO)
    shares = [round_half_up(asked * one / whole, decimals) for one in sums]
    shares[sums.index(max(sums))] += asked - sum(shares, ZERO)
    return shares


def _net(gross: Decimal, rate_pct: Decimal, decimals: int) -> Decimal:
    return round_half_up(gross * HUNDRED / (HUNDRED + rate_pct), decimals)


def _asked(tax_code: str, net: Decimal, words: str) -> DraftLine:
    return DraftLine(
        kind="deposit",
        description=words,
        quantity=Decimal(1),
        unit="job",
        unit_price=net,
        tax_code=tax_code,
    )


def deposit_lines(sheets: Iterable[InvoiceSheet]) -> tuple[DraftLine, ...]:
    """Deposit invoices taken off: one negative line for each of their taxes, at the rate it had then.

    Credit notes on a deposit invoice, given among the sheets, are taken from it; what is credited in full
    brings no line.
    """
    nets: dict[str, Decimal] = {}
    lines: dict[str, DraftLine] = {}
    for sheet in sheets:
        number = sheet.number if sheet.kind == "deposit_invoice" else sheet.preceding[0].number
        for line in sheet.lines:
            key = f"deposit:{number}:{line.tax_code}"
            nets[key] = nets.get(key, ZERO) + sheet.sign * line.net
            lines.setdefault(key, _taken_off(key, number, line.tax_code, line.taxed))
    return tuple(lines[key].model_copy(update={"unit_price": net}) for key, net in nets.items() if net > ZERO)


def _taken_off(key: str, number: str, tax_code: str, taxed: LineTax | None) -> DraftLine:
    return DraftLine(
        key=key,
        kind="deposit",
        description=say("Deposit invoice {number}", number=number),
        quantity=Decimal(-1),  # a price is never negative: the sign is the quantity's (BR-27)
        unit="job",
        unit_price=ZERO,
        tax_code=tax_code,
        taxed=taxed,
    )


def deposit_rounding(sheets: Iterable[InvoiceSheet]) -> Decimal:
    """The rounding (BT-114) of the invoice that takes them off: the customer pays its gross to the unit."""
    return -sum((sheet.sign * sheet.sums.rounding for sheet in sheets), ZERO)
