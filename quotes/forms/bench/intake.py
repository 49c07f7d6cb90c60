"""The intake card: what stands at the door, who brought it, and what came with it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast
from uuid import UUID, uuid4

from django import forms
from django.core.exceptions import ValidationError

from catalogue.queries import duty_choices, engine_type_choices
from quotes.actions.bench.intake import NewEngine, Wishes
from quotes.actions.bench.jobs import Intake
from quotes.actions.customers import CustomerDetails
from quotes.forms.books.fields import Payer
from quotes.forms.books.payment import Picked
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.models import Customer, Delivered, ServiceKnown, ServiceUnit

COMES_WITH = (
    "Carburettors or throttle bodies",
    "Airbox and filter",
    "Exhaust",
    "Ignition unit and loom",
    "Starter motor",
    "Clutch cable or slave cylinder",
    "Front sprocket",
    "Oil cooler and its lines",
    "Coolant hoses",
    "Key",
    "Logbook",
    "Spare shims",
)
"""What usually comes with an engine; anything else is written below it."""
HALVES = {
    "vertical": ("Left case half", "Right case half"),
    "horizontal": ("Upper case half", "Lower case half"),
}
EITHER = ("One case half", "The other case half")
NUMBER = "Engine number"
MOST_LINES = 30


class Keyed(SettingsForm):
    """A card with a key of its own, so that what is sent twice is kept once."""

    key = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def once(self) -> UUID:
        return cast(UUID | None, self.cleaned_data.get("key")) or uuid4()


class IntakeForm(Keyed):
    """What is seen and said at the door. `split` is how the cases of this engine part, where it is known."""

    brought_by = Line("Who brings it?", 200, required=True)
    right_to_hand_over = Line("In what right? Owner, rider, sent by the team", 200)
    delivered = Choice(label="How does it come?", choices=Delivered.choices)
    shelf = Line("Shelf or box", 40)
    tag = Line("Tag on the engine", 40, help_text="Left blank: the number of the job.")
    mark_number = Line("Engine number, as it is stamped", 80)
    mark_first = Line(EITHER[0], 80)
    mark_second = Line(EITHER[1], 80)
    mark_other = Line("Other marks: seals, paint, file marks", 80)
    came_with = forms.MultipleChoiceField(
        label="What came with it",
        choices=[(each, each) for each in COMES_WITH],
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )
    also = Line("And also, one thing on each line", 1000, rows=3)
    missing = Line("What is missing or broken", 500, rows=2)
    oil_seen = Line("Oil: level, colour, what is in it", 300)
    symptoms = Line("What does it do? Noises, jumps, smoke, a crash", 1000, rows=3)
    duty = Choice(label="What has it been used for?", required=False)
    use_note = Line("More on its use", 500)
    service_amount = Figure("How far has it gone?", "0", "1000000", required=False)
    service_unit = Choice(label="Of what?", choices=[("", "choose"), *ServiceUnit.choices], required=False)
    service_known = Choice(label="How is that known?", choices=ServiceKnown.choices)
    backwards = forms.BooleanField(label="It stays as it is said, though it runs backwards", required=False)
    to_record = forms.BooleanField(
        label="Put what was run since on the engine's record, from which quotes are worked out",
        required=False,
    )

    def __init__(self, *args: Any, split: str = "", **options: Any) -> None:
        super().__init__(*args, **options)
        cast(Choice, self.fields["duty"]).choices = [("", "not said"), *duty_choices()]
        self.halves = HALVES.get(split, EITHER)
        self.fields["mark_first"].label, self.fields["mark_second"].label = self.halves
        self.fields["brought_by"].error_messages["required"] = "Nothing is given: write the full name."
        self.asks_backwards = False

    def clean_also(self) -> tuple[str, ...]:
        things = tuple(line.strip() for line in self.cleaned_data["also"].splitlines() if line.strip())
        if len(things) > MOST_LINES:
            raise ValidationError(f"{len(things)} lines: at most {MOST_LINES} things are kept.")
        return things

    def marks(self) -> tuple[tuple[str, str], ...]:
        told = self.cleaned_data
        named = (
            (NUMBER, told["mark_number"]),
            (self.halves[0], told["mark_first"]),
            (self.halves[1], told["mark_second"]),
            ("Other marks", told["mark_other"]),
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

    customer = Payer("Whose engine is it? A name in our book")
    new_name = Line("Or somebody new: name", 200)
    new_telephone = Line("Telephone", 40)

    def clean(self) -> dict[str, Any]:
        told = self.cleaned_data
        if not self.errors and bool(told.get("customer")) == bool(told.get("new_name")):
            said = "Pick one from the book, or write somebody new: not both." if told.get("customer") else ""
            self.add_error(
                "customer", said or "Nothing is given: pick a name, or write somebody new beside it."
            )
        return told

    def who(self) -> Customer | CustomerDetails:
        told = self.cleaned_data
        picked: Customer | None = told["customer"]
        return picked or CustomerDetails(name=told["new_name"], telephone=told["new_telephone"])


class EngineForm(SettingsForm):
    """Which engine it is, where it is not in our books yet."""

    type = Picked(label="Which engine is it?")
    number = Line("Engine number for our books", 60)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        types: Sequence[tuple[str, str]] = engine_type_choices()
        cast(Choice, self.fields["type"]).choices = [("", "choose"), *types]

    def what(self) -> NewEngine:
        return NewEngine(self.cleaned_data["type"], self.cleaned_data["number"])
