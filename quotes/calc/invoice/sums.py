"""The sums of a document by EN 16931: line nets, totals BT-106 to BT-115, tax once per (category, rate).

Every invoice, and every preview of one, is summed here. Money is in the document's currency at `decimals`
places, halves away from zero.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Protocol

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.line_tax import LineTax
from quotes.calc.invoice.own_parts import as_charged
from quotes.calc.invoice.units import unit_code
from quotes.calc.invoice.values import Adjustment, InvoiceLine, Sums
from quotes.calc.money import price
from quotes.calc.money.tax import TaxedLine, tax_code_of, tax_of
from quotes.calc.sheet.line_values import TaxGroup
from quotes.calc.shop import TaxCode, TaxComponent


class Countable(Protocol):
    """What a line must say for its net to be worked out."""

    @property
    def quantity(self) -> Decimal: ...
    @property
    def unit_price(self) -> Decimal: ...
    @property
    def price_base(self) -> Decimal: ...
    @property
    def adjustments(self) -> tuple[Adjustment, ...]: ...


class Taxed(Protocol):
    """A line or an adjustment with its tax."""

    @property
    def tax_code(self) -> str: ...
    @property
    def category(self) -> str: ...
    @property
    def rate_pct(self) -> Decimal: ...
    @property
    def taxed(self) -> LineTax | None: ...


def line_net(line: Countable, decimals: int) -> Decimal:
    """BT-131: quantity x price / base, rounded, less the line's allowances and with its charges."""
    net = price.line_net(line.quantity, line.unit_price, decimals, price_base=line.price_base)
    return net + sum((round_half_up(one.signed, decimals) for one in line.adjustments), ZERO)


def invoice_lines(draft: Draft, tax_codes: Mapping[str, TaxCode], decimals: int) -> tuple[InvoiceLine, ...]:
    """The draft's lines as they are issued: numbered, taxed at today's rates, with unit codes and nets.

    Raises UnknownTaxCodeError.
    """
    return tuple(
        invoice_line(number, line, tax_codes, decimals) for number, line in enumerate(draft.lines, start=1)
    )


def invoice_line(
    number: int, draft_line: DraftLine, tax_codes: Mapping[str, TaxCode], decimals: int
) -> InvoiceLine:
    """One line as it is issued. A part that the customer brought is priced at nothing."""
    line = as_charged(draft_line)
    taxed = line.taxed or _line_tax(tax_code_of(line.tax_code, tax_codes))
    return InvoiceLine(
        number=number,
        key=line.key,
        kind=line.kind,
        description=line.description,
        note=line.note,
        quantity=line.quantity,
        unit=line.unit,
        unit_code=unit_code(line.unit),
        unit_price=line.unit_price,
        price_base=line.price_base,
        adjustments=tuple(_rounded(one, decimals) for one in line.adjustments),
        net=line_net(line, decimals),
        tax_code=line.tax_code,
        category=taxed.category,
        rate_pct=taxed.rate_pct,
        component=line.component,
        own_part=line.own_part,
        taxed=taxed,
        of_line=line.of_line,
    )


def document_adjustments(
    draft: Draft, tax_codes: Mapping[str, TaxCode], decimals: int
) -> tuple[Adjustment, ...]:
    """The allowances and charges of the whole document, each taxed by its code (BG-20, BG-21)."""
    return tuple(_taxed(_rounded(one, decimals), tax_codes) for one in draft.adjustments)


def document_sums(
    lines: Sequence[InvoiceLine],
    adjustments: Sequence[Adjustment],
    tax_codes: Mapping[str, TaxCode],
    *,
    decimals: int,
    prepaid: Decimal = ZERO,
    rounding: Decimal = ZERO,
) -> Sums:
    """BT-106 to BT-115 and the tax groups in the order in which they first appear. Raises
    UnknownTaxCodeError, and ValueError where a line states another tax than its code has.
    """
    allowances = _total(adjustments, "allowance", decimals)
    charges = _total(adjustments, "charge", decimals)
    line_total = round_half_up(sum((line.net for line in lines), ZERO), decimals)
    groups = _groups(lines, adjustments, tax_codes, decimals)
    net = line_total - allowances + charges
    tax = round_half_up(sum((group.tax for group in groups), ZERO), decimals)
    return Sums(
        line_total=line_total,
        allowance_total=allowances,
        charge_total=charges,
        net=net,
        tax=tax,
        gross=net + tax,
        prepaid=round_half_up(prepaid, decimals),
        rounding=round_half_up(rounding, decimals),
        due=net + tax - round_half_up(prepaid, decimals) + round_half_up(rounding, decimals),
        tax_groups=groups,
    )


def draft_sums(draft: Draft, tax_codes: Mapping[str, TaxCode], decimals: int) -> Sums:
    """The sums that the draft would be issued with at these rates."""
    return document_sums(
        invoice_lines(draft, tax_codes, decimals),
        document_adjustments(draft, tax_codes, decimals),
        tax_codes,
        decimals=decimals,
        prepaid=sum(draft.prepayments.values(), ZERO),
        rounding=draft.rounding,
    )


def _groups(
    lines: Sequence[InvoiceLine],
    adjustments: Sequence[Adjustment],
    tax_codes: Mapping[str, TaxCode],
    decimals: int,
) -> tuple[TaxGroup, ...]:
    codes: dict[str, TaxCode] = {}
    taxed: list[TaxedLine] = []
    amounts: Iterable[tuple[Taxed, Decimal]] = (
        *((line, line.net) for line in lines),
        *((one, one.signed) for one in adjustments),
    )
    for item, amount in amounts:
        code = _code_of(item, tax_codes)
        # An earlier document's tax may stand beside today's under one code: the rate tells them apart.
        name = f"{item.tax_code}|{code.category}|{code.components}"
        codes[name] = code
        taxed.append((name, amount))
    return tax_of(taxed, codes, decimals)


def _code_of(item: Taxed, tax_codes: Mapping[str, TaxCode]) -> TaxCode:
    if item.taxed is None:
        code = tax_code_of(item.tax_code, tax_codes)
    else:
        components = tuple(TaxComponent(name, rate) for name, rate in item.taxed.components)
        code = TaxCode(item.tax_code, item.taxed.category, components, item.taxed.reason)
    stated = (item.category, item.rate_pct)
    if stated != (code.category, code.rate_pct):
        raise ValueError(f"{stated} is stated where {item.tax_code!r} is {code.category} {code.rate_pct}")
    return code


def _line_tax(code: TaxCode) -> LineTax:
    return LineTax(
        category=code.category,
        components=tuple((part.name, part.rate_pct) for part in code.components),
        reason=code.reason,
    )


def _taxed(one: Adjustment, tax_codes: Mapping[str, TaxCode]) -> Adjustment:
    taxed = one.taxed or _line_tax(tax_code_of(one.tax_code, tax_codes))
    return one.model_copy(update={"taxed": taxed, "category": taxed.category, "rate_pct": taxed.rate_pct})


def _rounded(one: Adjustment, decimals: int) -> Adjustment:
    return one.model_copy(update={"amount": round_half_up(one.amount, decimals)})


def _total(adjustments: Sequence[Adjustment], kind: str, decimals: int) -> Decimal:
    amounts = (one.amount for one in adjustments if one.kind == kind)
    return round_half_up(sum(amounts, ZERO), decimals)
