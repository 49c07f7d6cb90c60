"""Parts with an age of their own: entered by serial number, fitted, taken out."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.bench.lifed_parts import Before
from quotes.actions.bench.part_moves import MovedWhen
from quotes.forms.books.fields import Payer
from quotes.forms.figures import Choice, Figure, Line, NotLater, Picked, SettingsForm
from quotes.models import ServiceUnit

NEW, RUN, UNKNOWN = "new", "run", "unknown"
PAST = [(NEW, _("nothing: it is new")), (RUN, _("as written below")), (UNKNOWN, _("nobody knows"))]


class LifedPartForm(SettingsForm):
    """A part as it comes into the books, with what it ran before."""

    component = Picked(label=_("Which part?"))
    serial = Line(_("Serial number or mark"), 80, required=True)
    grade = Choice(
        label=_("Grade"),
        choices=[("", _("not said")), ("stock", _("stock")), ("performance", _("performance"))],
        required=False,
    )
    owner = Payer(_("Whose is it?"), help_text=_("Left empty: the workshop's own."))
    past = Picked(label=_("What has it run before?"), choices=PAST, widget=forms.RadioSelect)
    ran_before = Figure(_("How much?"), "0", "1000000", required=False)
    ran_before_unit = Choice(
        label=_("Of what?"), choices=[("", _("choose")), *ServiceUnit.choices], required=False
    )
    ran_before_duty = Choice(label=_("In which use?"), required=False)
    engine = Choice(label=_("Is it in an engine now?"), required=False)
    note = Line(_("Note"), 500, rows=2)

    def clean(self) -> dict[str, Any]:
        told = super().clean() or self.cleaned_data
        if told.get("past") == RUN and not told.get("ran_before") and "ran_before" not in self.errors:
            self.add_error("ran_before", say("Nothing is given: how much did it run? A number above 0."))
        return told

    def before(self) -> Before:
        """What it had run before; what stands in the fields counts only where it is said that it ran."""
        told = self.cleaned_data
        if told["past"] == RUN:
            return Before(told["ran_before"], told["ran_before_unit"], told["ran_before_duty"])
        return Before(None if told["past"] == UNKNOWN else ZERO)


class MoveForm(SettingsForm):
    """When a part is moved, and what its engine had run then."""

    on = NotLater(_("On which day?"))
    service = Figure(
        _("What had the engine run then?"),
        "0",
        "1000000",
        required=False,
        help_text=_("Left empty: all that is known of it."),
    )
    alike = forms.BooleanField(label=_("Move what bears the same mark with it"), required=False)

    def move(self) -> MovedWhen:
        told = self.cleaned_data
        return MovedWhen(on=told["on"], service=told["service"], alike=told["alike"])


class FitForm(MoveForm):
    """Into which engine."""

    engine = Picked(label=_("Into which engine?"))
