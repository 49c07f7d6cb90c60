"""Parts that the customer brings: they are fitted, stand on the invoice and are not charged."""

from __future__ import annotations

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.invoice.draft import DraftLine

NOTE = to_say("Brought by the customer: fitted, not charged.")


def as_charged(line: DraftLine) -> DraftLine:
    """The line as it is asked for: at nothing where the customer brought the part, else as it is."""
    if not line.own_part:
        return line
    return line.model_copy(update={"unit_price": ZERO, "adjustments": (), "note": line.note or say(NOTE)})


def brought(line: DraftLine) -> DraftLine:
    """The line of a part that the customer brings."""
    return as_charged(line.model_copy(update={"own_part": True}))
