"""An engine's logbook on paper."""

from __future__ import annotations

from django.template.loader import render_to_string

from quotes.calc.bench.logbook import LogSheet
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
from quotes.documents.pdf import printed
from quotes.documents.words import day, long_day


def logbook_pdf(sheet: LogSheet) -> bytes:
    """Everything that happened to the engine, and how far each lifed part has run."""
    made = long_day(sheet.on, LANGUAGE)
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    context = {
        "heading": PaperHeading(sheet.workshop, sheet.owner),
        "title": f"Logbook: {engine}",
        "foot": f"{sheet.workshop.name} · Logbook of {engine} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.on:%Y-%m-%d}T00:00:00Z",
        "strip": (("Engine", engine), ("Owner", sheet.owner.name), ("As of", made)),
        "sheet": sheet,
        "rows": [(day(one.on) if one.on else "before", one) for one in sheet.entries],
    }
    return printed(render_to_string("documents/bench/logbook.html", context), paper_style(sheet.paper))
