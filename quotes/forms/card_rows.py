"""The rows of the card: stretches of service, parts renewed, things seen or told, readings."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from quotes.forms.card_parts import SHORT_UNITS, OfferedForm
from quotes.forms.fields import choice, day, number, text


class SegmentRow(OfferedForm):
    """A stretch of past service."""

    content = ("amount", "duty", "start", "end")
    needed = ("amount", "duty")
    amount = number(_("How far has it gone?"))
    unit = choice(_("Unit"), SHORT_UNITS)
    duty = choice(_("In what use?"))
    tier = choice(_("Built as"))
    start = day(_("From"))
    end = day(_("To"))

    def offer(self) -> None:
        self.choices("duty", self.offered.duties)
        self.choices("tier", self.offered.tiers, None)


class RenewedRow(OfferedForm):
    """A component renewed since the engine was new."""

    content = ("component", "at", "on")
    needed = ("component", "at")
    component = choice(_("Renewed since"))
    at = number(_("At how much in all?"))
    unit = choice(_("Unit"), SHORT_UNITS)
    on = day(_("On"))

    def offer(self) -> None:
        held = [pair for pair in self.offered.serviced if pair[0] == self.typed("component")]
        self.choices("component", [*self.offered.components, *held], ("", _("nothing")))


class SeenRow(OfferedForm):
    """A finding, or an event that was told or logged, with its place."""

    content = ("id",)
    id = choice(_("What was told or seen?"))
    component = choice(_("Which one?"))
    place = text(_("Where?"), maxlength="120")
    pct_over = number(_("How far over the limit?"))
    at = number(_("At how much in all?"))

    def offer(self) -> None:
        grouped = [
            (_("Told or logged"), self.offered.events),
            (_("Seen at the strip-down"), self.offered.findings),
        ]
        self.choices("id", [group for group in grouped if group[1]], ("", _("nothing")))
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
    component = choice(_("Measured on"))
    quantity = text(_("What was measured?"), maxlength="120")
    place = text(_("Where?"), maxlength="120")
    value = number(_("Reading"))
    unit = text(_("Unit"), maxlength="20")
    standard = number(_("Standard"))
    limit = number(_("Limit"))
    bad_when = choice(_("Bad when"), [("above", _("above the limit")), ("below", _("below the limit"))])
    limit_source = text(_("Limit from"), placeholder=_("default, not from your manual"), maxlength="200")

    def offer(self) -> None:
        self.choices("component", self.offered.components, ("", _("nothing")))
