"""The assembly record on paper: what was built, component by component."""

from __future__ import annotations

from typing import Any

from django.template.loader import render_to_string

from quotes.calc.bench.record_sheet import RecordSheet
from quotes.calc.bench.verdicts import DEFAULT_SOURCE
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
from quotes.documents.pdf import printed
from quotes.documents.words import long_day


def record_pdf(sheet: RecordSheet) -> bytes:
    """The record as it was closed."""
    html = render_to_string("documents/bench/record.html", record_context(sheet))
    return printed(html, paper_style(sheet.paper))


def record_context(sheet: RecordSheet) -> dict[str, Any]:
    """Everything that the paper says."""
    made = long_day(sheet.closed_on, LANGUAGE)
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    return {
        "heading": PaperHeading(sheet.workshop, sheet.customer),
        "title": f"Assembly record {sheet.number}: {engine}",
        "foot": f"{sheet.workshop.name} · Assembly record, job {sheet.number} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.closed_on:%Y-%m-%d}T00:00:00Z",
        "strip": (("Job", sheet.number), ("Closed on", made), ("Engine", engine), ("Tag", sheet.tag)),
        "sheet": sheet,
        "closed": made,
        "default_source": DEFAULT_SOURCE,
    }
