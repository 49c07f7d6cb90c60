"""The intake receipt on paper, with the photos taken at the door."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from catalogue.calc.said import say
from quotes.calc.bench.receipt import ReceiptSheet
from quotes.documents.letterhead import LANGUAGE, PaperHeading, engine_in_words, paper_frame, paper_style
from quotes.documents.pdf import photo_address, printed
from quotes.documents.speech import paper_in
from quotes.documents.words import long_day


def intake_receipt_pdf(sheet: ReceiptSheet, pictures: Mapping[str, bytes]) -> bytes:
    """The receipt; `pictures` are JPEGs by fingerprint, and one that is not there is left out."""

    def told() -> dict[str, Any]:
        return receipt_context(sheet) | {
            "photos": [
                (photo_address(pictures[photo.sha256]), photo.words or say("As it came in"))
                for photo in sheet.photos
                if photo.sha256 in pictures
            ]
        }

    html = paper_in(sheet.language, "documents/bench/receipt.html", told)
    return printed(html, paper_style(sheet.paper))


def receipt_context(sheet: ReceiptSheet) -> dict[str, Any]:
    """Everything that the receipt says, in words."""
    made = long_day(sheet.on, LANGUAGE)
    engine = engine_in_words(sheet)
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.customer),
        sheet.on,
        title=say("Receipt {number}: {engine}", number=sheet.number, engine=engine),
        foot=say(
            "{workshop} · Receipt, job {number} · {made}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            made=made,
        ),
        strip=(
            (say("Job"), sheet.number),
            (say("Taken in on"), made),
            (say("Engine"), engine),
            (say("Tag"), sheet.tag),
        ),
    ) | {
        "sheet": sheet,
        "facts": _facts(sheet),
    }


def _facts(sheet: ReceiptSheet) -> tuple[tuple[str, str], ...]:
    brought = ", ".join(filter(None, (sheet.brought_by, sheet.right)))
    rows = (
        (say("Brought by"), brought),
        (say("Came"), sheet.delivered),
        (say("Tag on the engine"), sheet.tag),
        (say("Shelf or box"), sheet.shelf),
        *sheet.marks,
        (say("Came with it"), "; ".join(sheet.came_with) or say("nothing")),
        (say("Missing or broken"), sheet.missing or say("nothing that was seen")),
        (say("Oil"), sheet.oil_seen),
        (say("What it does"), sheet.symptoms),
        (say("Used for"), sheet.use),
        (say("Its service, as stated"), sheet.service),
    )
    return tuple((label, value) for label, value in rows if value)
