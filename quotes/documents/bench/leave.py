"""The leave to strip on page and paper."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.template.loader import render_to_string

from quotes.calc.bench.leave_sheet import LeaveSheet
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
from quotes.documents.pdf import printed
from quotes.documents.words import long_day, money


def leave_pdf(sheet: LeaveSheet) -> bytes:
    """The leave on paper, with a place to sign where nobody has given it yet."""
    return printed(
        render_to_string("documents/bench/leave.html", leave_context(sheet)), paper_style(sheet.paper)
    )


def leave_context(sheet: LeaveSheet) -> dict[str, Any]:
    """Everything that the leave says, in words."""
    made = long_day(sheet.on, LANGUAGE)
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    return {
        "heading": PaperHeading(sheet.workshop, sheet.customer),
        "title": f"Leave to strip {sheet.number}: {engine}",
        "foot": f"{sheet.workshop.name} · Leave to strip, job {sheet.number} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.on:%Y-%m-%d}T00:00:00Z",
        "strip": (("Job", sheet.number), ("Dated", made), ("Engine", engine), ("Tag", sheet.tag)),
        "sheet": sheet,
        "sums": _sums(sheet),
        "ahead": _ahead(sheet),
        "if_not": _if_not(sheet),
        "given": _given(sheet, made),
    }


def _sums(sheet: LeaveSheet) -> tuple[tuple[str, str], ...]:
    return (
        ("Strip-down", _money(sheet, sheet.price)),
        ("Putting it back as it was, where nothing is done", _money(sheet, sheet.put_back)),
        ("Deposit before anything is undone", _money(sheet, sheet.deposit)),
    )


def _ahead(sheet: LeaveSheet) -> str:
    if sheet.credited_if_ahead:
        return (
            "If the work goes ahead, the strip-down is part of the build and is not charged beside it; "
            "the deposit is taken off the invoice."
        )
    return (
        f"The strip-down costs {_money(sheet, sheet.price)} whether or not the work goes ahead; the deposit "
        "is taken off the invoice."
    )


def _if_not(sheet: LeaveSheet) -> str:
    price, back = _money(sheet, sheet.price), _money(sheet, sheet.put_back)
    if sheet.if_not == "reassembled":
        return (
            f"If you say no after the strip-down, the engine is put back as it was for {back}, beside "
            f"{price} for the strip-down. New gaskets and single-use parts come to it at their price. "
            "A worn engine does not run better for it."
        )
    if sheet.if_not == "in_boxes":
        return (
            "If you say no after the strip-down, the engine goes back to you in boxes, labelled, for "
            f"{price}. Putting it together would be {back} more."
        )
    return (
        f"If you say no after the strip-down, the engine is scrapped here; {price} is owed for stripping it."
    )


def _given(sheet: LeaveSheet, made: str) -> str:
    if not sheet.name:
        return ""
    right = f", {sheet.right}," if sheet.right else ""
    by_call = f", number called {sheet.telephone}" if sheet.telephone else ""
    return (
        f"{sheet.name}{right} gave leave on {made} {sheet.how}{by_call}. Written down by {sheet.written_by}."
    )


def _money(sheet: LeaveSheet, amount: Decimal) -> str:
    return money(amount, sheet.currency, sheet.decimals, LANGUAGE)
