"""The assembly record on paper: what was built, component by component."""

from __future__ import annotations

from typing import Any

from catalogue.calc.said import say
from quotes.calc.bench.assembly.sheet import RecordSheet
from quotes.calc.bench.teardown.verdicts import DEFAULT_SOURCE
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
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
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    return {
        "heading": PaperHeading(sheet.workshop, sheet.customer),
        "title": say("Assembly record {number}: {engine}", number=sheet.number, engine=engine),
        "foot": say(
            "{workshop} · Assembly record, job {number} · {made}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            made=made,
        ),
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.closed_on:%Y-%m-%d}T00:00:00Z",
        "strip": (
            (say("Job"), sheet.number),
            (say("Closed on"), made),
            (say("Engine"), engine),
            (say("Tag"), sheet.tag),
        ),
        "sheet": sheet,
        "closed": made,
        "default_source": DEFAULT_SOURCE,
    }
