"""A works order as it is sent: the paper draws this value."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from quotes.calc.ask.request import Value
from quotes.calc.bench.parts.target_sizes import Target
from quotes.calc.sheet.issued_values import Party


class WorksSheet(Value):
    """What is sent to whom, under which tag, with what, to which sizes, and when it is expected back."""

    number: str
    workshop: Party
    vendor: str
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    sent_on: date
    expected_on: date
    slow_on: date
    job: str
    tag: str
    engine_name: str
    work: str
    quantity: Decimal
    unit: str
    targets: tuple[Target, ...]
    goes_with: tuple[str, ...]
    words: str
    taken_off: tuple[str, ...]
    """What the part has lost before, in words."""
