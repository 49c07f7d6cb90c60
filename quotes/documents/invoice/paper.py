"""What the template of an invoice is told: finished words, no sums of its own but those of what it groups."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.safestring import mark_safe

from catalogue.calc.money import ZERO
from quotes.calc.invoice.values import InvoiceLine, InvoiceSheet
from quotes.calc.sheet.values import TaxGroup
from quotes.documents.invoice.amounts import said
from quotes.documents.invoice.paper_lines import line_groups
from quotes.documents.invoice.paying import due_label, late_words, pay
from quotes.documents.invoice.payment_code import payment_code
from quotes.documents.words import NO_BREAK, currency_in_words, long_day

TITLES = {"invoice": "Invoice", "credit_note": "Credit note", "deposit_invoice": "Deposit invoice"}


@dataclass(frozen=True, slots=True)
class SumRow:
    """One row of the sums. `weight` is total for what is ruled off."""

    label: str
    amount: str
    weight: str = ""


def invoice_context(sheet: InvoiceSheet) -> dict[str, Any]:
    """Everything that the page says."""
    title, language = TITLES[sheet.kind], sheet.language
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
        "engine": ", ".join(filter(None, (sheet.engine_name, sheet.engine_number))),
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
    return f"tax number {number}".replace(" ", NO_BREAK) if number else ""


def _strip(sheet: InvoiceSheet, title: str, dated: str) -> Iterator[tuple[str, str]]:
    yield title, sheet.number
    yield "Dated", dated
    if sheet.kind == "invoice":
        yield "Work done", _period(sheet.supplied_from, sheet.supplied_on, sheet.language)
    if sheet.kind == "credit_note":
        yield "Takes back", ", ".join(reference.number for reference in sheet.preceding)
    elif sheet.sums.due <= ZERO:
        yield "To pay", "nothing"
    elif sheet.due_on:
        yield "Pay by", long_day(sheet.due_on, sheet.language)
    else:
        yield "Pay", sheet.payment_words


def _period(first: date | None, last: date, language: str) -> str:
    if first is None or first == last:
        return long_day(last, language)
    return f"{long_day(first, language)} to {long_day(last, language)}"


def _agreed(sheet: InvoiceSheet) -> tuple[str, ...]:
    """The yes: its first line in bold, then who and when, then the extra work."""
    agreed = sheet.agreed
    if agreed is None:
        return ()
    yes = f"Yes by {agreed.accepted_by}, {long_day(agreed.accepted_on, sheet.language)}"
    extra = (
        f"Extra work {extra.number}: {extra.words}, {said(extra.gross, sheet)}, "
        f"yes by {extra.accepted_by}, {long_day(extra.accepted_on, sheet.language)}"
        for extra in agreed.extra_work
    )
    return (f"Quote {agreed.quote}, revision {agreed.revision}, {agreed.option}", yes, *extra)


def _preceding(sheet: InvoiceSheet) -> Iterator[str]:
    for reference in sheet.preceding:
        dated = long_day(reference.issued_on, sheet.language)
        yield f"{TITLES[reference.kind]} {reference.number} of {dated}"


def _sums(sheet: InvoiceSheet) -> Iterator[SumRow]:
    """From the lines to what is left to pay."""
    sums = sheet.sums
    taken_off = sum((line.net for line in sheet.lines if _is_taken_off(line)), ZERO)
    if taken_off:
        yield SumRow("Work and parts, net", said(sums.line_total - taken_off, sheet))
        for line in filter(_is_taken_off, sheet.lines):
            yield SumRow(line.description, said(line.net, sheet))
    yield SumRow("Sum of the lines, net", said(sums.line_total, sheet))
    for adjustment in sheet.adjustments:
        label = adjustment.reason or ("Charge" if adjustment.kind == "charge" else "Discount")
        yield SumRow(label, said(adjustment.signed, sheet))
    if sheet.adjustments:
        yield SumRow("Without tax", said(sums.net, sheet))
    for group in sums.tax_groups:
        yield from _tax_rows(group, sheet)
    yield SumRow("With tax", said(sums.gross, sheet), "total")
    for paid in sheet.prepayments:
        on = long_day(paid.on, sheet.language)
        yield SumRow(f"Deposit, receipt {paid.receipt}, {on}", said(-paid.amount, sheet))
    if sums.rounding:
        yield SumRow("Rounding", said(sums.rounding, sheet))
    if sums.prepaid or sums.rounding:
        yield SumRow(due_label(sheet), said(abs(sums.due), sheet), "total")


def _is_taken_off(line: InvoiceLine) -> bool:
    return line.kind == "deposit" and line.net < ZERO


def _tax_rows(group: TaxGroup, sheet: InvoiceSheet) -> Iterator[SumRow]:
    base = said(group.taxable, sheet)
    if group.category != "S":
        yield SumRow(f"No tax on {base}: {group.reason or 'zero rated'}", said(group.tax, sheet))
        return
    parts = group.components or (("Tax", group.rate_pct, group.tax),)
    for name, rate, tax in parts:
        yield SumRow(f"{name} {rate.normalize():f} % on {base}", said(tax, sheet))


def _agreed_sentence(sheet: InvoiceSheet) -> str:
    """What was agreed beside what is asked, so that a difference can't hide."""
    agreed = sheet.agreed
    if agreed is None or sheet.kind != "invoice":
        return ""
    extra = "with the extra work " if agreed.extra_work else ""
    limit = f", and {said(agreed.limit_sum, sheet)} more without asking" if agreed.limit_sum else ""
    sum_agreed = agreed.up_to - agreed.limit_sum
    taken_off = any(map(_is_taken_off, sheet.lines))
    less = "after the deposits taken off it " if taken_off else ""
    return (
        f"The sum agreed to {extra}was {said(sum_agreed, sheet)} with tax{limit}; "
        f"this invoice {less}comes to {said(sheet.sums.gross, sheet)}."
    )
