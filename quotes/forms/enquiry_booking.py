"""The booking card: which build in which week, on what terms, and who may say yes."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.actions.booking import BookingWish
from quotes.calc.ask.request import Delivered as DeliveredValue
from quotes.calc.bench_words import hours_in_words
from quotes.calc.dates.slots import Bench
from quotes.calc.intake.enquiry_card import Said
from quotes.documents.words import long_day
from quotes.forms.figures import Choice, Figure, Line, Picked, SettingsForm
from quotes.models import Authority, Delivered, OldParts, SaidHow

MOST_MONEY = "9999999.99"
WEEKS_OFFERED = 40
"""Three quarters of a year ahead; nobody books a week further away."""

Choices = list[tuple[str, str]]


def tier_choices(said: Said) -> Choices:
    """The options of the enquiry with their hours."""
    return [("", say("choose"))] + [
        (option.tier, say("{option}, {hours} h", option=option.name, hours=hours_in_words(option.hours)))
        for option in said.options
    ]


def week_choices(bench: Bench) -> Choices:
    """Weeks with a free hour, each with what is free."""
    return [
        (
            week.monday.isoformat(),
            say(
                "{day}, {hours} h free",
                day=long_day(week.monday),
                hours=hours_in_words(week.free),
            ),
        )
        for week in bench.weeks[:WEEKS_OFFERED]
        if week.free > 0
    ]


class BookingForm(SettingsForm):
    """Sums are in the workshop's currency, with tax."""

    tier = Picked(label=_("Which way of building?"))
    week = Choice(label=_("Week from"))
    delivered = Choice(label=_("Comes to us"), choices=Delivered.choices)
    deposit = Figure(_("Slot deposit"), "0", MOST_MONEY)
    authority = Choice(label=_("Who may say yes?"), choices=Authority.choices)
    authority_name = Line(_("By name"), 200, required=True)
    said_how = Choice(label=_("How?"), choices=SaidHow.choices)
    limit_sum = Figure(_("More without asking, up to"), "0", MOST_MONEY)
    old_parts = Choice(label=_("Old parts"), choices=OldParts.choices)
    agreed = forms.BooleanField(label=_("The terms below were read and agreed to today"), required=False)
    agreed_by = Line(_("Agreed to by"), 200)

    WIDTHS = (
        ("tier", "w4"),
        ("week", "w5"),
        ("delivered", "w3"),
        ("authority", "w3"),
        ("authority_name", "w3"),
        ("said_how", "w3"),
        ("limit_sum", "w3"),
        ("old_parts", "w6"),
        ("deposit", "w6"),
        ("agreed", "w6"),
        ("agreed_by", "w6"),
    )

    def __init__(self, said: Said, bench: Bench, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        cast(Choice, self.fields["tier"]).choices = tier_choices(said)
        cast(Choice, self.fields["week"]).choices = week_choices(bench)
        self.fields["authority_name"].error_messages["required"] = say(
            "Nothing is given: write the full name."
        )
        for name in ("deposit", "limit_sum"):
            cast(Figure, self.fields[name]).unit = said.currency

    @property
    def cells(self) -> list[tuple[Any, str]]:
        return [(self[name], width) for name, width in self.WIDTHS]

    def clean(self) -> dict[str, Any]:
        """The tick and the name go together: a tick by nobody proves nothing."""
        told = self.cleaned_data
        if told.get("agreed") and not told.get("agreed_by"):
            self.add_error("agreed_by", ValidationError(say("Nothing is given: who agreed to the terms?")))
        if told.get("agreed_by") and not told.get("agreed"):
            self.add_error("agreed", ValidationError(say("Tick this too, or leave the name blank.")))
        return told

    def wish(self) -> BookingWish:
        told = self.cleaned_data
        return BookingWish(
            tier=told["tier"],
            week=date.fromisoformat(told["week"]),
            delivered=cast(DeliveredValue, told["delivered"]),
            deposit=Decimal(told["deposit"]),
            authority=told["authority"],
            authority_name=told["authority_name"],
            said_how=told["said_how"],
            limit_sum=Decimal(told["limit_sum"]),
            old_parts=told["old_parts"],
            agreed_by=told["agreed_by"] if told["agreed"] else "",
        )
