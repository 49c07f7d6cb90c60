"""A works order on paper: what goes out, to which sizes, under which tag."""

from __future__ import annotations

from typing import Any

from catalogue.calc.said import say
from quotes.calc.bench.parts.works_sheet import WorksSheet
from quotes.calc.sheet.issued_values import Party
from quotes.calc.sheet.unit_words import plain_figure
from quotes.documents.letterhead import LANGUAGE, PaperHeading, paper_frame, paper_style
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in
from quotes.documents.words import long_day


def works_order_pdf(sheet: WorksSheet) -> bytes:
    """The order as it goes out with the part."""
    html = paper_in(sheet.language, "documents/bench/works_order.html", lambda: _context(sheet))
    return printed(html, paper_style(sheet.paper))


def _context(sheet: WorksSheet) -> dict[str, Any]:
    made = long_day(sheet.sent_on, LANGUAGE)
    return paper_frame(
        PaperHeading(sheet.workshop, Party(name=sheet.vendor)),
        sheet.sent_on,
        title=say("Works order {number}: {work}", number=sheet.number, work=sheet.work),
        foot=say(
            "{workshop} · Works order {number} · {made}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            made=made,
        ),
        strip=(
            (say("Works order"), sheet.number),
            (say("Tag"), sheet.tag),
            (say("Sent on"), made),
            (say("Expected back"), long_day(sheet.expected_on, LANGUAGE)),
        ),
    ) | {
        "sheet": sheet,
        "quantity": _how_many(sheet),
        "latest": long_day(sheet.slow_on, LANGUAGE),
    }


def _how_many(sheet: WorksSheet) -> str:
    """How many of what, such as 8 valves or 1 crank."""
    unit = sheet.unit.replace("_", " ")
    words = unit if sheet.quantity == 1 else f"{unit}s"
    return f"{plain_figure(sheet.quantity)} {say(words)}"
