"""An extra-work offer on page and paper: what it says, from one finished value."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from catalogue.calc.said import say, say_count, to_say
from quotes.calc.bench.again.extra_sheet import ExtraSheet
from quotes.calc.sheet.unit_words import plain_figure
from quotes.documents.letterhead import LANGUAGE, PaperHeading, engine_in_words, paper_frame, paper_style
from quotes.documents.pdf import photo_address, printed
from quotes.documents.speech import paper_in
from quotes.documents.words import figure, long_day, money

MINUS = "\N{MINUS SIGN}"
WITHIN = {
    True: to_say("{words}. {change} more with tax, within the sum that you let us spend without asking."),
    False: to_say("{words}. {change} less with tax, within the sum that you let us spend without asking."),
}
ASKED = {
    True: to_say("{words}. {change} more with tax; nothing of it is done before your yes."),
    False: to_say("{words}. {change} less with tax; nothing of it is done before your yes."),
}
"""What is asked, by whether it costs more."""
STATES = {
    "offered": to_say("waits for your answer"),
    "accepted": to_say("accepted"),
    "declined": to_say("declined"),
    "within": to_say("done within the sum that may be spent without asking"),
    "withdrawn": to_say("taken back by us"),
}


def extra_work_pdf(sheet: ExtraSheet, photo: bytes | None = None) -> bytes:
    """The offer on paper, with a place to sign while it waits. `photo` is a JPEG."""
    address = photo_address(photo) if photo else ""
    html = paper_in(
        sheet.language,
        "documents/bench/extra_work.html",
        lambda: {**extra_work_context(sheet), "photo": address},
    )
    return printed(html, paper_style(sheet.paper))


def extra_work_context(sheet: ExtraSheet) -> dict[str, Any]:
    """Everything that the offer says, in words."""
    made = long_day(sheet.on, LANGUAGE)
    engine = engine_in_words(sheet)
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.customer),
        sheet.on,
        title=say("Extra work {number}: {engine}", number=sheet.number, engine=engine),
        foot=say(
            "{workshop} · Extra work {number} · {made}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            made=made,
        ),
        strip=(
            (say("Extra work"), sheet.number),
            (say("Offered on"), made),
            (say("Engine"), engine),
            (say("State"), say(STATES[sheet.state])),
        ),
    ) | {
        "sheet": sheet,
        "lead": _lead(sheet),
        "sums": _sums(sheet),
        "lines": _lines(sheet),
        "dates": _dates(sheet),
        "waits": _waits(sheet),
        "net": _money(sheet, sheet.net),
        "tax": _money(sheet, sheet.tax),
        "gross": _money(sheet, sheet.gross),
    }


def _lines(sheet: ExtraSheet) -> list[tuple[str, str, str, str]]:
    """What, how much, its sum, and why."""
    return [
        (
            line.description,
            f"{plain_figure(line.quantity)} {say(line.unit)}",
            figure(line.net, sheet.decimals),
            line.why,
        )
        for line in sheet.lines
    ]


def _lead(sheet: ExtraSheet) -> str:
    places = {"words": sheet.words, "change": _money(sheet, abs(sheet.gross))}
    if sheet.state == "within":
        return say(WITHIN[sheet.gross >= 0], **places)
    return say(ASKED[sheet.gross >= 0], **places)


def _sums(sheet: ExtraSheet) -> tuple[tuple[str, str], ...]:
    return (
        (say("Agreed so far, with tax"), _money(sheet, sheet.old_gross)),
        (say("The change"), f"{'+' if sheet.gross >= 0 else MINUS} {_money(sheet, abs(sheet.gross))}"),
        (say("Then altogether"), _money(sheet, sheet.new_gross)),
    )


def _dates(sheet: ExtraSheet) -> tuple[tuple[str, str], ...]:
    rows = (
        (say("Promised so far"), sheet.old_ready_on),
        (say("Ready then"), sheet.new_ready_on or sheet.old_ready_on),
    )
    return tuple((label, _day(on)) for label, on in rows if on)


def _waits(sheet: ExtraSheet) -> str:
    if sheet.state != "offered" or not sheet.stops:
        return ""
    return say_count(
        "Until there is an answer one piece of work on your engine must wait, and the rest goes on.",
        "Until there is an answer {count} pieces of work on your engine must wait, and the rest goes on.",
        len(sheet.stops),
    )


def _day(on: date) -> str:
    return long_day(on, LANGUAGE)


def _money(sheet: ExtraSheet, amount: Decimal) -> str:
    return money(amount, sheet.currency, sheet.decimals)
