"""Parts with an age of their own: entered by serial number, fitted, taken out."""

from __future__ import annotations

from typing import Any

from django import forms

from catalogue.calc.money import ZERO
from quotes.actions.bench.lifed_parts import Before, Move
from quotes.forms.books.fields import Payer
from quotes.forms.books.payment import NotLater, Picked
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.models import ServiceUnit

NEW, RUN, UNKNOWN = "new", "run", "unknown"
PAST = [(NEW, "nothing: it is new"), (RUN, "as written below"), (UNKNOWN, "nobody knows")]


class LifedPartForm(SettingsForm):
    """A part as it comes into the books, with what it ran before."""

    component = Picked(label="Which part?")
    serial = Line("Serial number or mark", 80, required=True)
    grade = Choice(
        label="Grade",
        choices=[("", "not said"), ("stock", "stock"), ("performance", "performance")],
        required=False,
    )
    owner = Payer("Whose is it?", help_text="Left empty: the workshop's own.")
    past = Picked(label="What has it run before?", choices=PAST, widget=forms.RadioSelect)
    ran_before = Figure("How much?", "0", "1000000", required=False)
    ran_before_unit = Choice(label="Of what?", choices=[("", "choose"), *ServiceUnit.choices], required=False)
    ran_before_duty = Choice(label="In which use?", required=False)
    engine = Choice(label="Is it in an engine now?", required=False)
    note = Line("Note", 500, rows=2)

    def clean(self) -> dict[str, Any]:
        told = super().clean() or self.cleaned_data
        if told.get("past") == RUN and not told.get("ran_before") and "ran_before" not in self.errors:
            self.add_error("ran_before", "Nothing is given: how much did it run? A number above 0.")
        return told

    def before(self) -> Before:
        """What it had run before; what stands in the fields counts only where it is said that it ran."""
        told = self.cleaned_data
        if told["past"] == RUN:
            return Before(told["ran_before"], told["ran_before_unit"], told["ran_before_duty"])
        return Before(None if told["past"] == UNKNOWN else ZERO)


class MoveForm(SettingsForm):
    """When a part is moved, and what its engine had run then."""

    on = NotLater("On which day?")
    service = Figure(
        "What had the engine run then?",
        "0",
        "1000000",
        required=False,
        help_text="Left empty: all that is known of it.",
    )
    alike = forms.BooleanField(label="Move what bears the same mark with it", required=False)

    def move(self) -> Move:
        told = self.cleaned_data
        return Move(on=told["on"], service=told["service"], alike=told["alike"])


class FitForm(MoveForm):
    """Into which engine."""

    engine = Picked(label="Into which engine?")
