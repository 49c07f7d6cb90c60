"""What the template of an invoice is told: finished words, no sums of its own but those of what it groups."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django.utils.safestring import mark_safe

from catalogue.calc.money import ZERO
from quotes.calc.invoice.values import InvoiceLine, InvoiceSheet
from quotes.calc.sheet.values import TaxGroup
from quotes.documents.invoice.payment_code import payment_code
from quotes.documents.words import currency_in_words, long_day, money, plain_name

TITLES = {"invoice": "Invoice", "credit_note": "Credit note", "deposit_invoice": "Deposit invoice"}
GROUPS = (
    ("Bench work", ("labour",)),
    ("Parts", ("part",)),
    ("Machine work", ("machine_work",)),
    ("Consumables", ("consumables",)),
    ("Discount", ("discount",)),
    ("Freight, cores, storage and other", ("freight", "core", "storage", "interest", "other")),
    ("Deposits", ("deposit",)),
)
MINUS = "\u2212"


@dataclass(frozen=True, slots=True)
class SumRow:
    """One row of the sums. `weight` is total for what is ruled off."""

    label: str
    amount: str
    weight: str = ""


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
        "pay": _pay(sheet),
        "code": mark_safe(payment_code(sheet)),
        "late": _late(sheet),
        "currency": currency_in_words(sheet.currency, language),
        "groups": tuple(_groups(sheet)),
    }


def _registered(number: str) -> str:
    return f"tax number {number}" if number else ""


def _words(amount: Decimal, sheet: InvoiceSheet) -> str:
    """With a true minus, and the sign of the currency after it."""
    said = money(abs(amount), sheet.currency, sheet.decimals, sheet.language)
    return f"{MINUS}{said}" if amount < ZERO else said


def _plain(amount: Decimal, sheet: InvoiceSheet) -> str:
    """An amount in a column whose head names the currency."""
    said = f"{abs(amount):,.{sheet.decimals}f}"
    return f"{MINUS}{said}" if amount < ZERO else said


def _strip(sheet: InvoiceSheet, title: str, dated: str) -> Iterator[tuple[str, str]]:
    yield title, sheet.number
    yield "Dated", dated
    if sheet.kind == "invoice":
        yield "Work done", _period(sheet.supplied_from, sheet.supplied_on, sheet.language)
    if sheet.kind == "credit_note":
        yield "Takes back", ", ".join(reference.number for reference in sheet.preceding)
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
    said = f"Yes by {agreed.accepted_by}, {long_day(agreed.accepted_on, sheet.language)}"
    extra = (
        f"Extra work {extra.number}: {extra.words}, {_words(extra.gross, sheet)}, "
        f"yes by {extra.accepted_by}, {long_day(extra.accepted_on, sheet.language)}"
        for extra in agreed.extra_work
    )
    return (f"Quote {agreed.quote}, revision {agreed.revision}, {agreed.option}", said, *extra)


def _preceding(sheet: InvoiceSheet) -> Iterator[str]:
    for reference in sheet.preceding:
        dated = long_day(reference.issued_on, sheet.language)
        yield f"{TITLES[reference.kind]} {reference.number} of {dated}"


def _sums(sheet: InvoiceSheet) -> Iterator[SumRow]:
    """From the lines to what is left to pay."""
    sums = sheet.sums
    taken_off = sum((line.net for line in sheet.lines if _is_taken_off(line)), ZERO)
    if taken_off:
        yield SumRow("Work and parts, net", _words(sums.line_total - taken_off, sheet))
        for line in filter(_is_taken_off, sheet.lines):
            yield SumRow(line.description, _words(line.net, sheet))
    yield SumRow("Sum of the lines, net", _words(sums.line_total, sheet))
    for adjustment in sheet.adjustments:
        label = adjustment.reason or ("Charge" if adjustment.kind == "charge" else "Discount")
        yield SumRow(label, _words(adjustment.signed, sheet))
    for group in sums.tax_groups:
        yield from _tax_rows(group, sheet)
    yield SumRow("With tax", _words(sums.gross, sheet), "total")
    for paid in sheet.prepayments:
        on = long_day(paid.on, sheet.language)
        yield SumRow(f"Deposit, receipt {paid.receipt}, {on}", _words(-paid.amount, sheet))
    if sums.rounding:
        yield SumRow("Rounding", _words(sums.rounding, sheet))
    if sums.prepaid or sums.rounding:
        yield SumRow(_due_label(sheet), _words(abs(sums.due), sheet), "total")


def _is_taken_off(line: InvoiceLine) -> bool:
    return line.kind == "deposit" and line.net < ZERO


def _tax_rows(group: TaxGroup, sheet: InvoiceSheet) -> Iterator[SumRow]:
    base = _words(group.taxable, sheet)
    if group.category != "S":
        yield SumRow(f"No tax on {base}: {group.reason or 'zero rated'}", _words(group.tax, sheet))
        return
    parts = group.components or (("Tax", group.rate_pct, group.tax),)
    for name, rate, tax in parts:
        yield SumRow(f"{name} {rate.normalize():f} % on {base}", _words(tax, sheet))


def _due_label(sheet: InvoiceSheet) -> str:
    if sheet.sums.due == ZERO:
        return "Nothing to pay"
    owed_back = (sheet.sums.due < ZERO) != (sheet.kind == "credit_note")
    return "To be paid back" if owed_back else "Still to pay"


def _agreed_sentence(sheet: InvoiceSheet) -> str:
    """What was agreed beside what is asked, so that a difference can't hide."""
    agreed = sheet.agreed
    if agreed is None or sheet.kind != "invoice":
        return ""
    extra = "with the extra work " if agreed.extra_work else ""
    limit = f", and {_words(agreed.limit_sum, sheet)} more without asking" if agreed.limit_sum else ""
    sum_agreed = agreed.up_to - agreed.limit_sum
    taken_off = any(map(_is_taken_off, sheet.lines))
    less = "after the deposits taken off it " if taken_off else ""
    return (
        f"The sum agreed to {extra}was {_words(sum_agreed, sheet)} with tax{limit}; "
        f"this invoice {less}comes to {_words(sheet.sums.gross, sheet)}."
    )


def _pay(sheet: InvoiceSheet) -> tuple[tuple[str, bool], ...]:
    """The boxed line, as pieces of text and whether they are bold."""
    due = _words(abs(sheet.sums.due), sheet)
    label = _due_label(sheet)
    if label != "Still to pay":
        return ((f"{label}." if sheet.sums.due == ZERO else f"{label}: {due}.", True),)
    account, pieces = sheet.account, [(f"Pay {due}", True)]
    if account.iban:
        iban = " ".join(account.iban[at : at + 4] for at in range(0, len(account.iban), 4))
        pieces += [("to", True), (f"{iban}{f', {account.name}' if account.name else ''}", False)]
    pieces += [("and say", True), (f"{sheet.remittance}.", False)]
    if sheet.payment_words:
        pieces.append((f"{sheet.payment_words}.", False))
    return tuple(pieces)


def _late(sheet: InvoiceSheet) -> str:
    late = sheet.late
    if not late.rate_pct_a_year or sheet.kind == "credit_note":
        return ""
    return (
        f"From {late.after_days} days after the day of payment the terms ask for interest of "
        f"{late.rate_pct_a_year.normalize():f} % a year."
    )


def _groups(sheet: InvoiceSheet) -> Iterator[LineGroup]:
    for name, kinds in GROUPS:
        lines = [line for line in sheet.lines if line.kind in kinds]
        if lines:
            net = sum((line.net for line in lines), ZERO)
            yield LineGroup(name, tuple(_row(line, sheet) for line in lines), _plain(net, sheet))


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
        net=_plain(line.net, sheet),
    )


def _each(line: InvoiceLine, sheet: InvoiceSheet) -> str:
    places = max(sheet.decimals, -int(line.unit_price.normalize().as_tuple().exponent))
    per = "" if line.price_base == 1 else f" for {line.price_base.normalize():f}"
    return f"{line.unit_price:,.{places}f}{per}"


def _adjusted(line: InvoiceLine, sheet: InvoiceSheet) -> Iterator[str]:
    for adjustment in line.adjustments:
        words = adjustment.reason or ("charge" if adjustment.kind == "charge" else "discount")
        yield f"{words}: {_plain(adjustment.signed, sheet)}."
