"""What the template of an invoice is told: finished words, no sums of its own but those of what it groups."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.safestring import mark_safe

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.invoice.values import ExtraAgreed, InvoiceLine, InvoiceSheet
from quotes.calc.sheet.line_values import TaxGroup
from quotes.documents.invoice.amounts import rate_figure, said
from quotes.documents.invoice.paper_lines import line_groups
from quotes.documents.invoice.paying import due_label, late_words, pay
from quotes.documents.invoice.payment_code import payment_code
from quotes.documents.letterhead import engine_in_words
from quotes.documents.words import NO_BREAK, currency_in_words, long_day, low_to_high

TITLES = {
    "invoice": to_say("Invoice"),
    "credit_note": to_say("Credit note"),
    "deposit_invoice": to_say("Deposit invoice"),
}


ADJUSTED = {"charge": to_say("Charge"), "allowance": to_say("Discount")}


@dataclass(frozen=True, slots=True)
class SumRow:
    """One row of the sums. `weight` is total for what is ruled off."""

    label: str
    amount: str
    weight: str = ""


def invoice_context(sheet: InvoiceSheet) -> dict[str, Any]:
    """Everything that the page says."""
    title, language = say(TITLES[sheet.kind]), sheet.language
    dated = long_day(sheet.issued_on, language)
    seller = sheet.seller
    reached = seller.telephone, seller.email, _registered(seller.tax_registration)
    return {
        "heading": {"language": language, "workshop": seller},
        "title": f"{title} {sheet.number}",
        "name": title,
        "foot": f"{seller.name} · {title} {sheet.number} · {dated}",
        "at": [*seller.lines, *filter(None, reached)],
        "made": f"{sheet.issued_on:%Y-%m-%d}T00:00:00Z",
        "strip": tuple(_strip(sheet, title, dated)),
        "sheet": sheet,
        "buyer_number": _registered(sheet.buyer.tax_registration),
        "engine": engine_in_words(sheet),
        "agreed": _agreed(sheet),
        "preceding": tuple(_preceding(sheet)),
        "sums": tuple(_sums(sheet)),
        "sentence": _agreed_sentence(sheet),
        "pay": pay(sheet),
        "code": mark_safe(payment_code(sheet)),
        "late": late_words(sheet),
        "currency": currency_in_words(sheet.currency, language),
        "groups": tuple(line_groups(sheet)),
    }


def _registered(number: str) -> str:
    return say("tax number {number}", number=number).replace(" ", NO_BREAK) if number else ""


def _strip(sheet: InvoiceSheet, title: str, dated: str) -> Iterator[tuple[str, str]]:
    yield title, sheet.number
    yield say("Dated"), dated
    if sheet.kind == "invoice":
        yield say("Work done"), _period(sheet.supplied_from, sheet.supplied_on, sheet.language)
    if sheet.kind == "credit_note":
        yield say("Takes back"), ", ".join(reference.number for reference in sheet.preceding)
    elif sheet.sums.due <= ZERO:
        yield say("To pay"), say("nothing")
    elif sheet.due_on:
        yield say("Pay by"), long_day(sheet.due_on, sheet.language)
    else:
        yield say("Pay"), sheet.payment_words


def _period(first: date | None, last: date, language: str) -> str:
    if first is None or first == last:
        return long_day(last, language)
    return low_to_high(long_day(first, language), long_day(last, language))


def _agreed(sheet: InvoiceSheet) -> tuple[str, ...]:
    """The yes: its first line in bold, then who and when, then the extra work."""
    agreed = sheet.agreed
    if agreed is None:
        return ()
    day = long_day(agreed.accepted_on, sheet.language)
    quote = say(
        "Quote {number}, revision {revision}, {option}",
        number=agreed.quote,
        revision=agreed.revision,
        option=agreed.option,
    )
    yes = say("Yes by {name}, {day}", name=agreed.accepted_by, day=day)
    return (quote, yes, *(_extra(each, sheet) for each in agreed.extra_work))


def _extra(extra: ExtraAgreed, sheet: InvoiceSheet) -> str:
    return say(
        "Extra work {number}: {words}, {sum}, yes by {name}, {day}",
        number=extra.number,
        words=extra.words,
        sum=said(extra.gross, sheet),
        name=extra.accepted_by,
        day=long_day(extra.accepted_on, sheet.language),
    )


def _preceding(sheet: InvoiceSheet) -> Iterator[str]:
    for reference in sheet.preceding:
        dated = long_day(reference.issued_on, sheet.language)
        title = say(TITLES[reference.kind])
        yield say("{document} {number} of {day}", document=title, number=reference.number, day=dated)


def _sums(sheet: InvoiceSheet) -> Iterator[SumRow]:
    """From the lines to what is left to pay."""
    sums = sheet.sums
    taken_off = sum((line.net for line in sheet.lines if _is_taken_off(line)), ZERO)
    if taken_off:
        yield SumRow(say("Work and parts, net"), said(sums.line_total - taken_off, sheet))
        for line in filter(_is_taken_off, sheet.lines):
            yield SumRow(line.description, said(line.net, sheet))
    yield SumRow(say("Sum of the lines, net"), said(sums.line_total, sheet))
    for adjustment in sheet.adjustments:
        label = adjustment.reason or say(ADJUSTED[adjustment.kind])
        yield SumRow(label, said(adjustment.signed, sheet))
    if sheet.adjustments:
        yield SumRow(say("Without tax"), said(sums.net, sheet))
    for group in sums.tax_groups:
        yield from _tax_rows(group, sheet)
    yield SumRow(say("With tax"), said(sums.gross, sheet), "total")
    for paid in sheet.prepayments:
        on = long_day(paid.on, sheet.language)
        yield SumRow(
            say("Deposit, receipt {number}, {day}", number=paid.receipt, day=on), said(-paid.amount, sheet)
        )
    if sums.rounding:
        yield SumRow(say("Rounding"), said(sums.rounding, sheet))
    if sums.prepaid or sums.rounding:
        yield SumRow(due_label(sheet), said(abs(sums.due), sheet), "total")


def _is_taken_off(line: InvoiceLine) -> bool:
    return line.kind == "deposit" and line.net < ZERO


def _tax_rows(group: TaxGroup, sheet: InvoiceSheet) -> Iterator[SumRow]:
    base = said(group.taxable, sheet)
    if group.category != "S":
        reason = group.reason or say("zero rated")
        yield SumRow(say("No tax on {sum}: {reason}", sum=base, reason=reason), said(group.tax, sheet))
        return
    parts = group.components or ((say("Tax"), group.rate_pct, group.tax),)
    for name, rate, tax in parts:
        rate_in_words = f"{rate_figure(rate, sheet.language)} %"
        words = say("{tax} {rate} on {sum}", tax=name, rate=rate_in_words, sum=base)
        yield SumRow(words, said(tax, sheet))


_AGREED = {
    (False, False): to_say("The sum agreed to was {sum} with tax"),
    (True, False): to_say("The sum agreed to with the extra work was {sum} with tax"),
    (False, True): to_say("The sum agreed to was {sum} with tax, and {limit} more without asking"),
    (True, True): to_say(
        "The sum agreed to with the extra work was {sum} with tax, and {limit} more without asking"
    ),
}
"""By whether there was extra work, and a limit."""
_COMES_TO = to_say("{agreed}; this invoice comes to {sum}.")
_COMES_TO_LESS = to_say("{agreed}; this invoice after the deposits taken off it comes to {sum}.")


def _agreed_sentence(sheet: InvoiceSheet) -> str:
    """What was agreed beside what is asked, so that a difference can't hide."""
    agreed = sheet.agreed
    if agreed is None or sheet.kind != "invoice":
        return ""
    was = say(
        _AGREED[bool(agreed.extra_work), bool(agreed.limit_sum)],
        sum=said(agreed.up_to - agreed.limit_sum, sheet),
        limit=said(agreed.limit_sum, sheet),
    )
    taken_off = any(map(_is_taken_off, sheet.lines))
    return say(_COMES_TO_LESS if taken_off else _COMES_TO, agreed=was, sum=said(sheet.sums.gross, sheet))
