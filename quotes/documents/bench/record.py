"""The assembly record on paper: what was built, component by component."""

from __future__ import annotations

from typing import Any

from catalogue.calc.said import say
from quotes.calc.bench.assembly.sheet import RecordSheet
from quotes.calc.bench.teardown.verdicts import DEFAULT_SOURCE
from quotes.documents.letterhead import LANGUAGE, PaperHeading, engine_in_words, paper_frame, paper_style
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in
from quotes.documents.words import long_day


def record_pdf(sheet: RecordSheet) -> bytes:
    """The record as it was closed."""
    html = paper_in(sheet.language, "documents/bench/record.html", lambda: record_context(sheet))
    return printed(html, paper_style(sheet.paper))


def record_context(sheet: RecordSheet) -> dict[str, Any]:
    """Everything that the paper says."""
    made = long_day(sheet.closed_on, LANGUAGE)
    engine = engine_in_words(sheet)
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.customer),
        sheet.closed_on,
        title=say("Assembly record {number}: {engine}", number=sheet.number, engine=engine),
        foot=say(
            "{workshop} · Assembly record, job {number} · {made}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            made=made,
        ),
        strip=(
            (say("Job"), sheet.number),
            (say("Closed on"), made),
            (say("Engine"), engine),
            (say("Tag"), sheet.tag),
        ),
    ) | {
        "sheet": sheet,
        "closed": made,
        "default_source": DEFAULT_SOURCE,
    }
