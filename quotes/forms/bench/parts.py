"""Parts: what became of ordered pieces, substitutes, cores, the customer's own parts, the shelf."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.books.fields import offer
from quotes.forms.figures import Choice, Day, Figure, Line, Picked, SettingsForm
from quotes.models import OrderEventKind

COST = ("0", "1000000", 2)


class TellForm(SettingsForm):
    """What became of pieces of one line. Below nought takes back a slip."""

    line = forms.IntegerField(widget=forms.HiddenInput)
    kind = Picked(label=_("What became of them?"), choices=[("", _("choose")), *OrderEventKind.choices])
    quantity = Figure(
        _("How many?"),
        "-99999",
        "99999",
        3,
        help_text=_("Below nought takes back what was written by mistake."),
    )
    on = Day(_("On which day?"))
    promised_on = Day(_("New day promised"), required=False, help_text=_("For a back-order."))
    unit_cost = Figure(_("Cost of one, if it changed"), *COST, required=False)
    batch = Line(_("Batch or serial"), 80)
    note = Line(_("Note"), 300)


class SubstituteForm(SettingsForm):
    """Another article in the place of one that can't be had."""

    part_number = Line(_("Part number"), 64, required=True)
    description = Line(_("What is it?"), 300, required=True)
    supplier = Picked(label=_("From whom?"))
    grade = Choice(label=_("Grade"), choices=[("stock", _("stock")), ("performance", _("performance"))])
    unit_cost = Figure(_("It costs us, each, before tax"), *COST)
    unit_price = Figure(_("The customer pays, each, before tax"), *COST)
    expected_on = Day(_("Here by"), required=False)
    why = Line(_("Why?"), 300, required=True)
    life_note = Line(
        _("What it does to life or power"),
        300,
        help_text=_("Left empty: nothing. Else the customer is asked."),
    )


class AgainForm(SettingsForm):
    """A second one of what was spoilt here."""

    quantity = Figure(_("How many again?"), "0.001", "99999", 3)
    why = Line(_("What happened to the first?"), 300, required=True)


class CoreForm(SettingsForm):
    """An old part that the supplier takes back."""

    build = Picked(label=_("Of which build?"))
    description = Line(_("Which part?"), 300, required=True)
    supplier = Picked(label=_("To whom does it go back?"))
    deposit = Figure(_("Deposit on it"), *COST)
    on = Day(_("Since which day?"))
    due_back_on = Day(_("Back by"), required=False, help_text=_("Left empty: 30 days."))


class OwnPartForm(SettingsForm):
    """A part that the customer brought."""

    component = Picked(label=_("Which part?"))
    description = Line(_("What is it?"), 300, required=True)
    quantity = Figure(_("How many?"), "0.001", "99999", 3)
    received_on = Day(_("Brought on"))
    condition = Line(_("How does it look?"), 300)
    fit_to_use = Picked(
        label=_("Fit to use?"),
        choices=[("yes", _("yes, it is fitted")), ("no", _("no"))],
        widget=forms.RadioSelect,
    )


class ShelfForm(SettingsForm):
    """Pieces taken from the shelf, or put back."""

    component = Picked(label=_("Which part?"))
    quantity = Figure(
        _("How many?"), "-99999", "99999", 3, help_text=_("Below nought: they go back on the shelf.")
    )
    cost = Figure(
        _("What they cost together"),
        "-1000000",
        "1000000",
        2,
        help_text=_("Below nought where they go back."),
    )
    on = Day(_("On which day?"))


def with_choices(
    form: SettingsForm, choices: Mapping[str, Sequence[tuple[str, str]]], today: date | None = None
) -> Any:
    """The form with the choices of today in its selects."""
    for name, pairs in choices.items():
        offer(form, name, [("", say("choose")), *pairs])
    return form
