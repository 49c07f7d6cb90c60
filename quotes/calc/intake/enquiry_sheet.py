"""An enquiry card as it is printed: who asked for what, and what was said."""

from __future__ import annotations

from datetime import date
from typing import Literal

from quotes.calc.ask.request import Value
from quotes.calc.intake.enquiry_card import Said
from quotes.calc.sheet.issued_values import Party


class EnquirySheet(Value):
    """Facts are pairs of a question and what was answered; unanswered questions are left out."""

    number: str
    kept_on: date
    kept_by: str
    workshop: Party
    customer: Party
    engine_number: str
    facts: tuple[tuple[str, str], ...]
    symptoms: str
    note: str
    said: Said
    paper: Literal["A4", "Letter"] = "A4"
