"""The intake card: what stands at the door, who brought it, and what came with it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast
from uuid import UUID, uuid4

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from catalogue.queries import duty_choices, engine_type_choices
from quotes.actions.bench.intake import NewEngine, Wishes
from quotes.actions.bench.jobs import Intake
from quotes.actions.customers import CustomerDetails
from quotes.forms.books.fields import Payer
from quotes.forms.figures import Choice, Figure, Line, Picked, SettingsForm
from quotes.models import Customer, Delivered, ServiceKnown, ServiceUnit

COMES_WITH = (
    to_say("Carburettors or throttle bodies"),
    to_say("Airbox and filter"),
    to_say("Exhaust"),
    to_say("Ignition unit and loom"),
    to_say("Starter motor"),
    to_say("Clutch cable or slave cylinder"),
    to_say("Front sprocket"),
    to_say("Oil cooler and its lines"),
    to_say("Coolant hoses"),
    to_say("Key"),
    to_say("Logbook"),
    to_say("Spare shims"),
)
"""What usually comes with an engine; anything else is written below it."""
HALVES = {
    "vertical": (to_say("Left case half"), to_say("Right case half")),
    "horizontal": (to_say("Upper case half"), to_say("Lower case half")),
}
EITHER = (to_say("One case half"), to_say("The other case half"))
NUMBER, OTHER_MARKS = to_say("Engine number"), to_say("Other marks")
MOST_LINES = 30


class Keyed(SettingsForm):
    """A card with a key of its own, so that what is sent twice is kept once."""

    key = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def once(self) -> UUID:
        return cast(UUID | None, self.cleaned_data.get("key")) or uuid4()


class IntakeForm(Keyed):
    """What is seen and said at the door. `split` is how the cases of this engine part, where it is known."""

    brought_by = Line(_("Who brings it?"), 200, required=True)
    right_to_hand_over = Line(_("In what right? Owner, rider, sent by the team"), 200)
    delivered = Choice(label=_("How does it come?"), choices=Delivered.choices)
    shelf = Line(_("Shelf or box"), 40)
    tag = Line(_("Tag on the engine"), 40, help_text=_("Left blank: the number of the job."))
    mark_number = Line(_("Engine number, as it is stamped"), 80)
    mark_first = Line(_(EITHER[0]), 80)
    mark_second = Line(_(EITHER[1]), 80)
    mark_other = Line(_("Other marks: seals, paint, file marks"), 80)
    came_with = forms.MultipleChoiceField(
        label=_("What came with it"),
        choices=[(each, _(each)) for each in COMES_WITH],
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )
    also = Line(_("And also, one thing on each line"), 1000, rows=3)
    missing = Line(_("What is missing or broken"), 500, rows=2)
    oil_seen = Line(_("Oil: level, colour, what is in it"), 300)
    symptoms = Line(_("What does it do? Noises, jumps, smoke, a crash"), 1000, rows=3)
    duty = Choice(label=_("What has it been used for?"), required=False)
    use_note = Line(_("More on its use"), 500)
    service_amount = Figure(_("How far has it gone?"), "0", "1000000", required=False)
    service_unit = Choice(
        label=_("Of what?"), choices=[("", _("choose")), *ServiceUnit.choices], required=False
    )
    service_known = Choice(label=_("How is that known?"), choices=ServiceKnown.choices)
    backwards = forms.BooleanField(
        label=_("It stays as it is said, though it runs backwards"), required=False
    )
    to_record = forms.BooleanField(
        label=_("Put what was run since on the engine's record, from which quotes are worked out"),
        required=False,
    )

    def __init__(self, *args: Any, split: str = "", **options: Any) -> None:
        super().__init__(*args, **options)
        cast(Choice, self.fields["duty"]).choices = [("", say("not said")), *duty_choices()]
        self.halves = HALVES.get(split, EITHER)
        for name, half in zip(("mark_first", "mark_second"), self.halves, strict=True):
            self.fields[name].label = say(half)
        self.fields["brought_by"].error_messages["required"] = say("Nothing is given: write the full name.")
        self.asks_backwards = False

    def clean_also(self) -> tuple[str, ...]:
        things = tuple(line.strip() for line in self.cleaned_data["also"].splitlines() if line.strip())
        if len(things) > MOST_LINES:
            raise ValidationError(
                say("{count} lines: at most {most} things are kept.", count=len(things), most=MOST_LINES)
            )
        return things

    def marks(self) -> tuple[tuple[str, str], ...]:
        told = self.cleaned_data
        named = (
            (NUMBER, told["mark_number"]),
            (self.halves[0], told["mark_first"]),
            (self.halves[1], told["mark_second"]),
            (OTHER_MARKS, told["mark_other"]),
        )
        return tuple((where, what) for where, what in named if what)

    def given(self) -> Intake:
        told = self.cleaned_data
        plain = (
            "brought_by right_to_hand_over delivered shelf tag missing oil_seen symptoms duty use_note "
            "service_amount service_unit service_known"
        )
        return Intake(
            **{name: told[name] for name in plain.split()},
            marks=self.marks(),
            came_with=(*told["came_with"], *told["also"]),
        )

    def wishes(self) -> Wishes:
        return Wishes(self.cleaned_data["backwards"], self.cleaned_data["to_record"])


class WhoForm(SettingsForm):
    """Whose engine it is, where no booking, quote or engine has said so."""

    customer = Payer(_("Whose engine is it? A name in our book"))
    new_name = Line(_("Or somebody new: name"), 200)
    new_telephone = Line(_("Telephone"), 40)

    def clean(self) -> dict[str, Any]:
        told = self.cleaned_data
        if not self.errors and bool(told.get("customer")) == bool(told.get("new_name")):
            said = (
                say("Pick one from the book, or write somebody new: not both.")
                if told.get("customer")
                else ""
            )
            self.add_error(
                "customer", said or say("Nothing is given: pick a name, or write somebody new beside it.")
            )
        return told

    def who(self) -> Customer | CustomerDetails:
        told = self.cleaned_data
        picked: Customer | None = told["customer"]
        return picked or CustomerDetails(name=told["new_name"], telephone=told["new_telephone"])


class EngineForm(SettingsForm):
    """Which engine it is, where it is not in our books yet."""

    type = Picked(label=_("Which engine is it?"))
    number = Line(_("Engine number for our books"), 60)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        types: Sequence[tuple[str, str]] = engine_type_choices()
        cast(Choice, self.fields["type"]).choices = [("", say("choose")), *types]

    def what(self) -> NewEngine:
        return NewEngine(self.cleaned_data["type"], self.cleaned_data["number"])
