"""Rules of EN 16931 that somebody can break by what is set or typed, each with the field to mend.

The published validators find them too, but name places in a file that no user has seen. They go by the names
that the validators give them. What our own sums keep by construction (BR-CO-13 to BR-CO-16 of `Sums`) can't
be broken by a sheet; that lines and groups add up is asked here, to the last digit, for the validators let
tax be a whole unit off and never ask whether a line is quantity times price.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.money import HUNDRED, ZERO, round_half_up
from catalogue.calc.said import say, to_say
from quotes.calc.invoice.countries import begins_with_country, is_country
from quotes.calc.invoice.faults import EInvoiceFault
from quotes.calc.invoice.rules_of_text import ADJUSTED, text_faults
from quotes.calc.invoice.sums import line_net
from quotes.calc.invoice.tax_rules import RULE_NAMES, tax_faults
from quotes.calc.invoice.values import Adjustment, InvoiceSheet, Sums
from quotes.calc.sheet.line_values import TaxGroup

MOST_DECIMALS = 2
"""BR-DEC: the standard has no amounts finer than this, whatever the currency."""
Fine = tuple[str, str, Decimal]
"""Rule, field, amount."""


def refuse_unfit_sheet(sheet: InvoiceSheet) -> None:
    """Raise the first EInvoiceFault of a sheet, if it has one."""
    for fault in einvoice_faults(sheet):
        raise fault


def einvoice_faults(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    """Every rule that the sheet breaks."""
    yield from _parties(sheet)
    yield from _numbers(sheet)
    yield from (EInvoiceFault(fault.rule, fault.field, fault.text) for fault in tax_faults(sheet.sums))
    yield from _lines(sheet)
    yield from _totals(sheet)
    places = min(sheet.decimals, MOST_DECIMALS)
    for rule, field, amount in (*_line_amounts(sheet), *_amounts(sheet.sums), *_group_amounts(sheet)):
        if round_half_up(amount, places) != amount:
            yield EInvoiceFault(rule, field, _too_fine(amount, places))
    yield from text_faults(sheet)
    if sheet.sums.due > ZERO and sheet.due_on is None and not sheet.payment_words.strip():
        yield EInvoiceFault(
            "BR-CO-25", say("payment terms"), say("say by when it is to be paid, in days or in words")
        )


def _parties(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    if not sheet.seller.name.strip():
        yield EInvoiceFault(
            "BR-06", say("name of the workshop"), say("is empty: put it in on the settings page")
        )
    if not sheet.buyer.name.strip():
        yield EInvoiceFault(
            "BR-07", say("name of the customer"), say("is empty: put it in on the customer's page")
        )
    for rule, field, where, country in (
        ("BR-09", say("country of the workshop"), say("on the books' settings"), sheet.seller_country),
        ("BR-11", say("country of the customer"), say("on the customer's page"), sheet.buyer_country),
    ):
        if not country:
            yield EInvoiceFault(rule, field, say("is missing: two letters such as IE, {where}", where=where))
        elif not is_country(country):
            text = say("{country}: two letters such as IE, {where}", country=country, where=where)
            yield EInvoiceFault("BR-CL-14", field, text)


def _numbers(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    """Tax numbers: that they are there where they must be, and begin with a country where they claim to."""
    seller, buyer = sheet.seller.tax_registration, sheet.buyer.tax_registration
    of_seller, of_buyer = say("tax number of the workshop"), say("tax number of the customer")
    if not seller:
        yield EInvoiceFault("BR-CO-26", of_seller, say("is missing: it goes on the settings page"))
    for field, number in ((of_seller, seller), (of_buyer, buyer)):
        if number[:2].isalpha() and not begins_with_country(number):
            text = say(
                "{number}: begins with no country; IE0000142T begins with Ireland's letters", number=number
            )
            yield EInvoiceFault("BR-CO-09", field, text)
    for category in sorted({group.category for group in sheet.sums.tax_groups} & {"AE", "K", "G"}):
        rule = f"BR-{RULE_NAMES[category]}-02"
        text = say("is needed for category {code}, and begins with its country, such as IE", code=category)
        if seller and category != "AE" and not begins_with_country(seller):
            yield EInvoiceFault(rule, of_seller, text)
        if category != "G" and not begins_with_country(buyer):
            yield EInvoiceFault(rule, of_buyer, text)


def _lines(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    if not sheet.lines:
        yield EInvoiceFault("BR-16", say("lines"), say("there is none: at least one"))
    for line in sheet.lines:
        field = say("line {number}", number=line.number)
        if not line.description.strip():
            yield EInvoiceFault("BR-25", field, say("has no words: say what it is for"))
        if line.unit_price < ZERO:
            text = say(
                "{price} is below nought: a return carries its sign on the quantity", price=line.unit_price
            )
            yield EInvoiceFault("BR-27", say("price of {field}", field=field), text)
        if line.net != (net := line_net(line, sheet.decimals)):
            text = say(
                "{stated} is stated where quantity times price comes to {net}", stated=line.net, net=net
            )
            yield EInvoiceFault("BT-131", field, text)


def _totals(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    """What lines, adjustments and groups add up to, without any tolerance."""
    sums, lines, others = sheet.sums, sheet.lines, sheet.adjustments
    stated = (
        ("BR-CO-10", say("sum of the lines"), sums.line_total, sum((line.net for line in lines), ZERO)),
        ("BR-CO-11", say("allowances"), sums.allowance_total, _sum_of("allowance", others)),
        ("BR-CO-12", say("charges"), sums.charge_total, _sum_of("charge", others)),
        *_stated_of_groups(sheet),
    )
    for rule, field, amount, worked_out in stated:
        if amount != worked_out:
            text = say("{stated} is stated where {net} comes out", stated=amount, net=worked_out)
            yield EInvoiceFault(rule, field, text)


def _sum_of(kind: str, adjustments: tuple[Adjustment, ...]) -> Decimal:
    return sum((one.amount for one in adjustments if one.kind == kind), ZERO)


def _stated_of_groups(sheet: InvoiceSheet) -> Iterator[tuple[str, str, Decimal, Decimal]]:
    for group in sheet.sums.tax_groups:
        rate = f"{group.rate_pct.normalize():f} %"
        field = say("tax {code} {rate}", code=group.category, rate=rate)
        taxed = round_half_up(group.taxable * group.rate_pct / HUNDRED, sheet.decimals)
        yield "BR-CO-17", field, group.tax, taxed
        rule = f"BR-{RULE_NAMES.get(group.category, group.category)}-08"
        yield rule, say("net of {field}", field=field), group.taxable, _taxable(group, sheet)


def _taxable(group: TaxGroup, sheet: InvoiceSheet) -> Decimal:
    of_group = group.category, group.rate_pct
    amounts = (
        *((line.category, line.rate_pct, line.net) for line in sheet.lines),
        *((one.category, one.rate_pct, one.signed) for one in sheet.adjustments),
    )
    return sum((amount for category, rate, amount in amounts if (category, rate) == of_group), ZERO)


_OF_LINE = {"allowance": to_say("allowance of {line}"), "charge": to_say("charge of {line}")}


def _too_fine(amount: Decimal, places: int) -> str:
    return say("{amount} has more than {places} decimals", amount=amount, places=places)


def _line_amounts(sheet: InvoiceSheet) -> Iterator[Fine]:
    for line in sheet.lines:
        field = say("line {number}", number=line.number)
        yield "BR-DEC-23", field, line.net
        for one in line.adjustments:
            allowance = one.kind == "allowance"
            what = say(_OF_LINE[one.kind], line=field)
            yield "BR-DEC-24" if allowance else "BR-DEC-27", what, one.amount
            base = one.base or ZERO
            yield "BR-DEC-25" if allowance else "BR-DEC-28", what, base
    for one in sheet.adjustments:
        allowance, what = one.kind == "allowance", say(ADJUSTED[one.kind])
        yield "BR-DEC-01" if allowance else "BR-DEC-05", what, one.amount
        yield "BR-DEC-02" if allowance else "BR-DEC-06", what, one.base or ZERO


def _amounts(sums: Sums) -> Iterator[Fine]:
    yield "BR-DEC-09", say("sum of the lines"), sums.line_total
    yield "BR-DEC-10", say("allowances"), sums.allowance_total
    yield "BR-DEC-11", say("charges"), sums.charge_total
    yield "BR-DEC-12", say("sum without tax"), sums.net
    yield "BR-DEC-13", say("tax"), sums.tax
    yield "BR-DEC-14", say("sum with tax"), sums.gross
    yield "BR-DEC-16", say("paid before"), sums.prepaid
    yield "BR-DEC-17", say("rounding"), sums.rounding
    yield "BR-DEC-18", say("amount due"), sums.due


def _group_amounts(sheet: InvoiceSheet) -> Iterator[Fine]:
    for group in sheet.sums.tax_groups:
        yield "BR-DEC-19", say("net of tax code {code}", code=group.code), group.taxable
        yield "BR-DEC-20", say("tax of tax code {code}", code=group.code), group.tax
