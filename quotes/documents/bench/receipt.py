"""The intake receipt on paper, with the photos taken at the door."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.template.loader import render_to_string

from quotes.calc.bench.receipt import ReceiptSheet
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
from quotes.documents.pdf import photo_address, printed
from quotes.documents.words import long_day


def intake_receipt_pdf(sheet: ReceiptSheet, pictures: Mapping[str, bytes]) -> bytes:
    """The receipt; `pictures` are JPEGs by fingerprint, and one that is not there is left out."""
    context = receipt_context(sheet) | {
        "photos": [
            (photo_address(pictures[photo.sha256]), photo.words or "As it came in")
            for photo in sheet.photos
            if photo.sha256 in pictures
        ]
    }
    html = render_to_string("documents/bench/receipt.html", context)
    return printed(html, paper_style(sheet.paper))


def receipt_context(sheet: ReceiptSheet) -> dict[str, Any]:
    """Everything that the receipt says, in words."""
    made = long_day(sheet.on, LANGUAGE)
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    return {
        "heading": PaperHeading(sheet.workshop, sheet.customer),
        "title": f"Receipt {sheet.number}: {engine}",
        "foot": f"{sheet.workshop.name} · Receipt, job {sheet.number} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.on:%Y-%m-%d}T00:00:00Z",
        "strip": (("Job", sheet.number), ("Taken in on", made), ("Engine", engine), ("Tag", sheet.tag)),
        "sheet": sheet,
        "facts": _facts(sheet),
    }


def _facts(sheet: ReceiptSheet) -> tuple[tuple[str, str], ...]:
    brought = ", ".join(filter(None, (sheet.brought_by, sheet.right)))
    rows = (
        ("Brought by", brought),
        ("Came", sheet.delivered),
        ("Tag on the engine", sheet.tag),
        ("Shelf or box", sheet.shelf),
        *sheet.marks,
        ("Came with it", "; ".join(sheet.came_with) or "nothing"),
        ("Missing or broken", sheet.missing or "nothing that was seen"),
        ("Oil", sheet.oil_seen),
        ("What it does", sheet.symptoms),
        ("Used for", sheet.use),
        ("Its service, as stated", sheet.service),
    )
    return tuple((label, value) for label, value in rows if value)
