"""Forms of a build's money: extra work and its answer, hours worked, and which part to invoice to whom."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.calc.invoice.draft import DraftLine
from quotes.forms.books.extra_lines import HEAD, LINES, Begun, ExtraLineRows, offer_suppliers, offer_taxes
from quotes.forms.books.fields import Payer, coins_of
from quotes.forms.figures import Choice, Figure, Line, NotLater, Picked, SettingsForm

PARTS_OF_IT = [
    ("labour", _("work")),
    ("part", _("parts")),
    ("machine_work", _("machine work")),
    ("consumables", _("consumables")),
]


class ExtraHead(SettingsForm):
    """What was found, and what happens if it is left."""

    words = Line(_("What was found, and what we would do"), 300, required=True)
    risk = Line(_("If it is left"), 300)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["words"].error_messages["required"] = say("Nothing is given: the customer reads this.")


BLANK_ROWS = 3
OTHER_WORK = "-"
"""Picked for bench work that is no operation of the catalogue."""


class ExtraForm:
    """Head and lines together."""

    def __init__(
        self,
        data: Mapping[str, Any] | None,
        *,
        currency: str,
        decimals: int,
        tax_codes: Sequence[tuple[str, str]],
        begun: Begun | None = None,
    ) -> None:
        self.head = ExtraHead(data, prefix=HEAD, initial=begun.head if begun else None)
        lines = begun.lines if begun else [{} for _ in range(BLANK_ROWS)]
        self.lines = ExtraLineRows(data, prefix=LINES, initial=None if data else lines)
        self.is_begun = begun is not None
        offer_suppliers(self.lines)
        offer_taxes(self.lines, tax_codes)
        for row in self.lines:
            coins_of(row, currency, decimals)

    def is_valid(self) -> bool:
        sound = [self.head.is_valid(), self.lines.is_valid()]
        if all(sound) and not self.lines.standing():
            self.head.add_error(
                None, say("Nothing stands in the lines: extra work has at least one, priced.")
            )
            return False
        return all(sound)

    def value(self) -> list[DraftLine]:
        return [row.value() for row in self.lines.standing()]


class AnswerForm(SettingsForm):
    """What the customer said to extra work: who, how, and the number called where it was by telephone."""

    accepted = Picked(
        label=_("What did they say?"), choices=[("yes", _("yes")), ("no", _("no"))], widget=forms.RadioSelect
    )
    name = Line(_("Who said it?"), 200, required=True)
    how = Picked(
        label=_("How?"),
        choices=[
            ("", _("choose")),
            ("in writing", _("in writing")),
            ("by telephone", _("by telephone")),
            ("here in the workshop", _("here in the workshop")),
        ],
    )
    called = Line(_("Number called, if by telephone"), 40)
    note = Line(_("In their words"), 300)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["name"].error_messages["required"] = say("Nothing is given: write the full name.")

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if data.get("how") == "by telephone" and not data.get("called"):
            self.add_error("called", ValidationError(say("Nothing is given: which number was called?")))
        return data

    def how_in_words(self) -> str:
        data = self.cleaned_data
        return f"{data['how']}, {data['called']}" if data["called"] else str(data["how"])


class HoursForm(SettingsForm):
    """What one person spent on one operation on one day."""

    operation = Picked(label=_("Which work?"))
    person = Choice(label=_("Who?"))
    on = NotLater(_("On which day?"))
    hours = Figure(_("How long?"), "0.01", "24", 2, unit="h")
    note = Line(_("Note"), 200)

    def operation_code(self) -> str:
        """The operation's code; empty for bench work that has none."""
        code = str(self.cleaned_data["operation"])
        return "" if code == OTHER_WORK else code


class CorrectHoursForm(SettingsForm):
    """Other hours in the place of those written down; nought takes them off."""

    hours = Figure(_("Hours"), "0", "24", 2, unit="h")
    note = Line(_("Why"), 200)


class PartOfItForm(SettingsForm):
    """Which part of what is left to invoice, and who pays it."""

    payer = Payer(_("Who pays?"), required=True)
    kinds = forms.MultipleChoiceField(
        label=_("Only these lines"),
        choices=PARTS_OF_IT,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        error_messages={"invalid_choice": _("“%(value)s” is none of these lines.")},
    )
    share_pct = Figure(_("Only this share"), "0.01", "100", 2, unit=_("per cent"), required=False)

    def given_kinds(self) -> tuple[str, ...] | None:
        return tuple(self.cleaned_data["kinds"]) or None

    def given_share(self) -> Decimal | None:
        share: Decimal | None = self.cleaned_data["share_pct"]
        return share


class CallOffForm(SettingsForm):
    """Why a build is called off, and who said so on which day."""

    reason = Line(_("Why is it called off?"), 300, required=True)
    said_by = Line(_("Who said it?"), 200, required=True)
    on = NotLater(_("On which day?"))

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["reason"].error_messages["required"] = say("Nothing is given: a few words.")
        self.fields["said_by"].error_messages["required"] = say("Nothing is given: write the full name.")
