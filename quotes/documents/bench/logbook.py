"""An engine's logbook on paper."""

from __future__ import annotations

from typing import Any

from catalogue.calc.said import say
from quotes.calc.bench.ages.logbook import LogSheet
from quotes.documents.letterhead import LANGUAGE, PaperHeading, engine_in_words, paper_frame, paper_style
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in
from quotes.documents.words import day, long_day


def logbook_pdf(sheet: LogSheet) -> bytes:
    """Everything that happened to the engine, and how far each lifed part has run."""
    html = paper_in(sheet.language, "documents/bench/logbook.html", lambda: _context(sheet))
    return printed(html, paper_style(sheet.paper))


def _context(sheet: LogSheet) -> dict[str, Any]:
    made = long_day(sheet.on, LANGUAGE)
    engine = engine_in_words(sheet)
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.owner),
        sheet.on,
        title=say("Logbook: {engine}", engine=engine),
        foot=say(
            "{workshop} · Logbook of {engine} · {made}",
            workshop=sheet.workshop.name,
            engine=engine,
            made=made,
        ),
        strip=((say("Engine"), engine), (say("Owner"), sheet.owner.name), (say("As of"), made)),
    ) | {
        "sheet": sheet,
        "rows": [(day(one.on) if one.on else say("before"), one) for one in sheet.entries],
    }
