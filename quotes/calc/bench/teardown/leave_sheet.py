"""The customer's leave to strip, as it is printed: what it costs, what happens on a no, and who gave it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from quotes.calc.ask.request import Value
from quotes.calc.sheet.issued_values import Party


class LeaveSheet(Value):
    """Sums with tax. `name` is empty while nobody has given it: then there is a place to sign."""

    number: str
    """The job's."""
    workshop: Party
    customer: Party
    engine_name: str
    engine_number: str
    tag: str
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    currency: str
    decimals: int
    on: date
    price: Decimal
    put_back: Decimal
    deposit: Decimal
    credited_if_ahead: bool
    if_not: Literal["reassembled", "in_boxes", "scrapped"]
    name: str = ""
    right: str = ""
    how: str = ""
    telephone: str = ""
    written_by: str = ""
