"""The rows of the card: stretches of service, parts renewed, things seen or told, readings."""

from __future__ import annotations

from quotes.forms.card_parts import SHORT_UNITS, OfferedForm
from quotes.forms.fields import choice, day, number, text


class SegmentRow(OfferedForm):
    """A stretch of past service."""

    content = ("amount", "duty", "start", "end")
    needed = ("amount", "duty")
    amount = number("How far has it gone?")
    unit = choice("Unit", SHORT_UNITS)
    duty = choice("In what use?")
    tier = choice("Built as")
    start = day("From")
    end = day("To")

    def offer(self) -> None:
        self.choices("duty", self.offered.duties)
        self.choices("tier", self.offered.tiers, None)


class RenewedRow(OfferedForm):
    """A component renewed since the engine was new."""

    content = ("component", "at", "on")
    needed = ("component", "at")
    component = choice("Renewed since")
    at = number("At how much in all?")
    unit = choice("Unit", SHORT_UNITS)
    on = day("On")

    def offer(self) -> None:
        self.choices("component", self.offered.components, ("", "nothing"))


class SeenRow(OfferedForm):
    """A finding, or an event that was told or logged, with its place."""

    content = ("id",)
    id = choice("What was told or seen?")
    component = choice("Which one?")
    place = text("Where?", maxlength="120")
    pct_over = number("How far over the limit?")
    at = number("At how much in all?")

    def offer(self) -> None:
        grouped = [("Told or logged", self.offered.events), ("Seen at the strip-down", self.offered.findings)]
        self.choices("id", [group for group in grouped if group[1]], ("", "nothing"))
        self.places = self.offered.place_choices(self.typed("id"))
        self.choices("component", self.places)

    @property
    def asks_how_far(self) -> bool:
        """Whether it is an over-rev, of which one asks how far over."""
        return self.typed("id") in self.offered.over_revs


class ReadingRow(OfferedForm):
    """A measured value with its standard and limit."""

    content = ("component", "quantity", "value")
    needed = ("component", "quantity", "value", "unit", "standard", "limit")
    component = choice("Measured on")
    quantity = text("What was measured?", maxlength="120")
    place = text("Where?", maxlength="120")
    value = number("Reading")
    unit = text("Unit", maxlength="20")
    standard = number("Standard")
    limit = number("Limit")
    bad_when = choice("Bad when", [("above", "above the limit"), ("below", "below the limit")])
    limit_source = text("Limit from", placeholder="default, not from your manual", maxlength="200")

    def offer(self) -> None:
        self.choices("component", self.offered.components, ("", "nothing"))
