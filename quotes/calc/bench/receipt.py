"""The receipt for an engine that was handed over: what it is, what came with it, and where it stands."""

from __future__ import annotations

from datetime import date
from typing import Literal

from quotes.calc.ask.request import Value
from quotes.calc.sheet.issued_values import Party


class PhotoShown(Value):
    """A photo of the receipt by the fingerprint of its picture, and what it shows."""

    sha256: str
    words: str = ""


class ReceiptSheet(Value):
    """As it was given to the customer; words only, so that it reads the same ever after."""

    number: str
    workshop: Party
    customer: Party
    engine_name: str
    engine_number: str
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    on: date
    brought_by: str
    right: str = ""
    delivered: str
    shelf: str = ""
    tag: str
    marks: tuple[tuple[str, str], ...] = ()
    came_with: tuple[str, ...] = ()
    missing: str = ""
    oil_seen: str = ""
    symptoms: str = ""
    use: str = ""
    service: str
    photos: tuple[PhotoShown, ...] = ()
    taken_by: str
