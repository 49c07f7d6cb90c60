"""The manual's figure of a limit, and a measuring instrument."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext_lazy as _

from quotes.calc.bench.teardown.units_read import KINDS
from quotes.forms.figures import Choice, Day, Figure, Line, SettingsForm
from quotes.forms.seen import SeenForm

FIGURE = ("-100000", "100000", 6)
UNITS = list(dict.fromkeys(unit for known in KINDS.values() for unit in known))


class Measure(Figure):
    """A figure as it is typed at the bench: a comma is the decimal mark there, never one of thousands."""

    def read(self, typed: str) -> str:
        return typed.replace(",", ".")

    def two_ways(self, typed: str) -> str:
        return ""


class LimitForm(SettingsForm):
    """What the maker's manual says, with where it says it."""

    standard_low = Measure(_("Standard, from"), *FIGURE, required=False)
    standard_high = Measure(_("Standard, to"), *FIGURE, required=False)
    watch = Measure(_("Near its limit from"), *FIGURE, required=False)
    limit = Measure(_("Limit"), *FIGURE)
    manual = Line(_("Which manual?"), 200, required=True)
    page = Line(_("Page"), 40)


class InstrumentForm(SeenForm):
    """An instrument and its check."""

    name = Line(_("Name and number"), 120, required=True)
    unit = Choice(
        label=_("Reads in"),
        choices=[("", _("more than one")), *((unit, unit) for unit in UNITS)],
        required=False,
    )
    checked_on = Day(_("Checked on"), required=False)
    check_due_on = Day(_("Next check"), required=False)
    note = Line(_("Note"), 300)
    out_of_use = forms.BooleanField(label=_("Out of use"), required=False)
