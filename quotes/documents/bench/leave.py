"""The leave to strip on page and paper."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from catalogue.calc.said import say
from quotes.calc.bench.teardown.leave_sheet import LeaveSheet
from quotes.documents.letterhead import LANGUAGE, PaperHeading, engine_in_words, paper_frame, paper_style
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in
from quotes.documents.words import long_day, money


def leave_pdf(sheet: LeaveSheet) -> bytes:
    """The leave on paper, with a place to sign where nobody has given it yet."""
    html = paper_in(sheet.language, "documents/bench/leave.html", lambda: leave_context(sheet))
    return printed(html, paper_style(sheet.paper))


def leave_context(sheet: LeaveSheet) -> dict[str, Any]:
    """Everything that the leave says, in words."""
    made = long_day(sheet.on, LANGUAGE)
    engine = engine_in_words(sheet)
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.customer),
        sheet.on,
        title=say("Leave to strip {number}: {engine}", number=sheet.number, engine=engine),
        foot=say(
            "{workshop} · Leave to strip, job {number} · {made}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            made=made,
        ),
        strip=(
            (say("Job"), sheet.number),
            (say("Dated"), made),
            (say("Engine"), engine),
            (say("Tag"), sheet.tag),
        ),
    ) | {
        "sheet": sheet,
        "sums": _sums(sheet),
        "ahead": _ahead(sheet),
        "if_not": _if_not(sheet),
        "given": _given(sheet, made),
    }


def _sums(sheet: LeaveSheet) -> tuple[tuple[str, str], ...]:
    return (
        (say("Strip-down"), _money(sheet, sheet.price)),
        (say("Putting it back as it was, where nothing is done"), _money(sheet, sheet.put_back)),
        (say("Deposit before anything is undone"), _money(sheet, sheet.deposit)),
    )


def _ahead(sheet: LeaveSheet) -> str:
    if sheet.credited_if_ahead:
        return say(
            "If the work goes ahead, the strip-down is part of the build and is not charged beside "
            "it; the deposit is taken off the invoice."
        )
    return say(
        "The strip-down costs {price} whether or not the work goes ahead; the deposit is taken "
        "off the invoice.",
        price=_money(sheet, sheet.price),
    )


def _if_not(sheet: LeaveSheet) -> str:
    price, back = _money(sheet, sheet.price), _money(sheet, sheet.put_back)
    if sheet.if_not == "reassembled":
        return say(
            "If you say no after the strip-down, the engine is put back as it was for {back}, beside "
            "{price} for the strip-down. New gaskets and single-use parts come to it at their price. "
            "A worn engine does not run better for it.",
            back=back,
            price=price,
        )
    if sheet.if_not == "in_boxes":
        return say(
            "If you say no after the strip-down, the engine goes back to you in boxes, labelled, for "
            "{price}. Putting it together would be {back} more.",
            price=price,
            back=back,
        )
    return say(
        "If you say no after the strip-down, the engine is scrapped here; {price} is owed for stripping it.",
        price=price,
    )


def _given(sheet: LeaveSheet, made: str) -> str:
    if not sheet.name:
        return ""
    places = {
        "name": f"{sheet.name}, {sheet.right}," if sheet.right else sheet.name,
        "day": made,
        "how": say(sheet.how),
        "by": sheet.written_by,
    }
    if not sheet.telephone:
        return say("{name} gave leave on {day} {how}. Written down by {by}.", **places)
    return say(
        "{name} gave leave on {day} {how}, number called {number}. Written down by {by}.",
        number=sheet.telephone,
        **places,
    )


def _money(sheet: LeaveSheet, amount: Decimal) -> str:
    return money(amount, sheet.currency, sheet.decimals, LANGUAGE)
