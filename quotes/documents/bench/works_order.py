"""A works order on paper: what goes out, to which sizes, under which tag."""

from __future__ import annotations

from django.template.loader import render_to_string

from quotes.calc.bench.works_sheet import WorksSheet
from quotes.calc.sheet.values import Party
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
from quotes.documents.pdf import printed
from quotes.documents.words import long_day


def works_order_pdf(sheet: WorksSheet) -> bytes:
    """The order as it goes out with the part."""
    made = long_day(sheet.sent_on, LANGUAGE)
    context = {
        "heading": PaperHeading(sheet.workshop, Party(name=sheet.vendor)),
        "title": f"Works order {sheet.number}: {sheet.work}",
        "foot": f"{sheet.workshop.name} · Works order {sheet.number} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.sent_on:%Y-%m-%d}T00:00:00Z",
        "strip": (
            ("Works order", sheet.number),
            ("Tag", sheet.tag),
            ("Sent on", made),
            ("Expected back", long_day(sheet.expected_on, LANGUAGE)),
        ),
        "sheet": sheet,
        "quantity": _how_many(sheet),
        "latest": long_day(sheet.slow_on, LANGUAGE),
    }
    return printed(render_to_string("documents/bench/works_order.html", context), paper_style(sheet.paper))


def _how_many(sheet: WorksSheet) -> str:
    """How many of what, such as 8 valves or 1 crank."""
    unit = sheet.unit.replace("_", " ")
    return f"{sheet.quantity.normalize():,f} {unit if sheet.quantity == 1 else f'{unit}s'}"
