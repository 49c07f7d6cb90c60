"""Parts: what became of ordered pieces, substitutes, cores, the customer's own parts, the shelf."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from django import forms

from quotes.forms.books.fields import offer
from quotes.forms.books.payment import Picked
from quotes.forms.figures import Choice, Day, Figure, Line, SettingsForm
from quotes.models import OrderEventKind

COST = ("0", "1000000", 2)


class TellForm(SettingsForm):
    """What became of pieces of one line. Below nought takes back a slip."""

    line = forms.IntegerField(widget=forms.HiddenInput)
    kind = Picked(label="What became of them?", choices=[("", "choose"), *OrderEventKind.choices])
    quantity = Figure(
        "How many?", "-99999", "99999", 3, help_text="Below nought takes back what was written by mistake."
    )
    on = Day("On which day?")
    promised_on = Day("New day promised", required=False, help_text="For a back-order.")
    unit_cost = Figure("Cost of one, if it changed", *COST, required=False)
    batch = Line("Batch or serial", 80)
    note = Line("Note", 300)


class SubstituteForm(SettingsForm):
    """Another article in the place of one that can't be had."""

    part_number = Line("Part number", 64, required=True)
    description = Line("What is it?", 300, required=True)
    supplier = Picked(label="From whom?")
    grade = Choice(label="Grade", choices=[("stock", "stock"), ("performance", "performance")])
    unit_cost = Figure("It costs us, each, before tax", *COST)
    unit_price = Figure("The customer pays, each, before tax", *COST)
    expected_on = Day("Here by", required=False)
    why = Line("Why?", 300, required=True)
    life_note = Line(
        "What it does to life or power", 300, help_text="Left empty: nothing. Else the customer is asked."
    )


class AgainForm(SettingsForm):
    """A second one of what was spoilt here."""

    quantity = Figure("How many again?", "0.001", "99999", 3)
    why = Line("What happened to the first?", 300, required=True)


class CoreForm(SettingsForm):
    """An old part that the supplier takes back."""

    build = Picked(label="Of which build?")
    description = Line("Which part?", 300, required=True)
    supplier = Picked(label="To whom does it go back?")
    deposit = Figure("Deposit on it", *COST)
    on = Day("Since which day?")
    due_back_on = Day("Back by", required=False, help_text="Left empty: 30 days.")


class OwnPartForm(SettingsForm):
    """A part that the customer brought."""

    component = Picked(label="Which part?")
    description = Line("What is it?", 300, required=True)
    quantity = Figure("How many?", "0.001", "99999", 3)
    received_on = Day("Brought on")
    condition = Line("How does it look?", 300)
    fit_to_use = Picked(
        label="Fit to use?", choices=[("yes", "yes, it is fitted"), ("no", "no")], widget=forms.RadioSelect
    )


class ShelfForm(SettingsForm):
    """Pieces taken from the shelf, or put back."""

    component = Picked(label="Which part?")
    quantity = Figure("How many?", "-99999", "99999", 3, help_text="Below nought: they go back on the shelf.")
    cost = Figure(
        "What they cost together", "-1000000", "1000000", 2, help_text="Below nought where they go back."
    )
    on = Day("On which day?")


def with_choices(
    form: SettingsForm, choices: Mapping[str, Sequence[tuple[str, str]]], today: date | None = None
) -> Any:
    """The form with the choices of today in its selects."""
    for name, pairs in choices.items():
        offer(form, name, [("", "choose"), *pairs])
    return form
