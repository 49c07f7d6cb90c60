"""An extra-work offer on page and paper: what it says, from one finished value."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django.template.loader import render_to_string

from quotes.calc.bench.extra_sheet import ExtraSheet
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
from quotes.documents.pdf import photo_address, printed
from quotes.documents.words import figure, long_day, money

MINUS = "\N{MINUS SIGN}"
STATES = {
    "offered": "waits for your answer",
    "accepted": "accepted",
    "declined": "declined",
    "within": "done within the sum that may be spent without asking",
    "withdrawn": "taken back by us",
}


def extra_work_pdf(sheet: ExtraSheet, photo: bytes | None = None) -> bytes:
    """The offer on paper, with a place to sign while it waits. `photo` is a JPEG."""
    context = {**extra_work_context(sheet), "photo": photo_address(photo) if photo else ""}
    return printed(render_to_string("documents/bench/extra_work.html", context), paper_style(sheet.paper))


def extra_work_context(sheet: ExtraSheet) -> dict[str, Any]:
    """Everything that the offer says, in words."""
    made = long_day(sheet.on, LANGUAGE)
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    return {
        "heading": PaperHeading(sheet.workshop, sheet.customer),
        "title": f"Extra work {sheet.number}: {engine}",
        "foot": f"{sheet.workshop.name} · Extra work {sheet.number} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.on:%Y-%m-%d}T00:00:00Z",
        "strip": (
            ("Extra work", sheet.number),
            ("Offered on", made),
            ("Engine", engine),
            ("State", STATES[sheet.state]),
        ),
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
            f"{line.quantity.normalize():,f} {line.unit}",
            figure(line.net, sheet.decimals),
            line.why,
        )
        for line in sheet.lines
    ]


def _lead(sheet: ExtraSheet) -> str:
    change = _money(sheet, abs(sheet.gross))
    more = f"{change} more" if sheet.gross >= 0 else f"{change} less"
    if sheet.state == "within":
        return f"{sheet.words}. {more} with tax, within the sum that you let us spend without asking."
    return f"{sheet.words}. {more} with tax; nothing of it is done before your yes."


def _sums(sheet: ExtraSheet) -> tuple[tuple[str, str], ...]:
    return (
        ("Agreed so far, with tax", _money(sheet, sheet.old_gross)),
        ("The change", f"{'+' if sheet.gross >= 0 else MINUS} {_money(sheet, abs(sheet.gross))}"),
        ("Then altogether", _money(sheet, sheet.new_gross)),
    )


def _dates(sheet: ExtraSheet) -> tuple[tuple[str, str], ...]:
    rows = (("Promised so far", sheet.old_ready_on), ("Ready then", sheet.new_ready_on or sheet.old_ready_on))
    return tuple((label, _day(on)) for label, on in rows if on)


def _waits(sheet: ExtraSheet) -> str:
    if sheet.state != "offered" or not sheet.stops:
        return ""
    pieces = "one piece of work" if len(sheet.stops) == 1 else f"{len(sheet.stops)} pieces of work"
    return f"Until there is an answer {pieces} on your engine must wait, and the rest goes on."


def _day(on: date) -> str:
    return long_day(on, LANGUAGE)


def _money(sheet: ExtraSheet, amount: Decimal) -> str:
    return money(amount, sheet.currency, sheet.decimals)
