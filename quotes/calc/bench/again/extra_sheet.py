"""An extra-work offer as the customer reads it: page and paper draw this value."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from quotes.calc.ask.request import Value
from quotes.calc.sheet.issued_values import Party


class ExtraLine(Value):
    """One priced line before tax; a net below nought takes accepted work off."""

    description: str
    quantity: Decimal
    unit: str
    net: Decimal
    why: str = ""
    """Its reason, where it was worked out from what was found."""


class ExtraSheet(Value):
    """Sums of the whole build with tax: as it was agreed, the change, and as it would be."""

    number: str
    quote_number: str
    engine_name: str
    engine_number: str
    workshop: Party
    customer: Party
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    currency: str
    decimals: int
    on: date
    words: str
    found: str
    """The finding it comes from, with its cause, where there is one."""
    risk: str
    rider_safety: bool
    why_asked: tuple[str, ...]
    stops: tuple[str, ...]
    """Work that waits for the answer."""
    lines: tuple[ExtraLine, ...]
    net: Decimal
    tax: Decimal
    gross: Decimal
    old_gross: Decimal
    new_gross: Decimal
    old_ready_on: date | None
    new_ready_on: date | None
    state: Literal["offered", "accepted", "declined", "within", "withdrawn"]
    answered: str = ""
    """Who answered, when and how."""
