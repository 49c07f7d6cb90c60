"""Reminding a customer of what is overdue, and writing down that the reminder was sent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import uuid4

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.calc.books.papers import Claim
from quotes.forms.fields import CardField, tick
from quotes.forms.figures import Day, Line, NotLater, Picked, SettingsForm, as_of
from quotes.models import OpenItem, SentHow

MOST_WORDS = 2000


@dataclass(frozen=True, slots=True)
class ClaimCell:
    """One overdue document with the tick that puts it into the reminder."""

    item: OpenItem
    claim: Claim
    cell: CardField

    @property
    def times_before(self) -> int:
        return self.claim.time - 1


def _fresh() -> forms.UUIDField:
    return forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)


class ReminderForm(SettingsForm):
    """What is claimed, by when it is to be paid, and what the letter says."""

    key = _fresh()
    pay_by = Day(_("To be paid by"))
    words = Line(_("What it says"), MOST_WORDS, rows=6, required=True)

    def __init__(
        self, *args: Any, items: Sequence[OpenItem], claims: Sequence[Claim], today: date, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.today = today
        self.rows = list(zip(items, claims, strict=True))
        for item, claim in self.rows:
            self.fields[f"item_{item.pk}"] = tick(claim.number)
            self.fields[f"item_{item.pk}"].initial = True

    def clean_pay_by(self) -> date:
        day: date = self.cleaned_data["pay_by"]
        if day < self.today:
            raise ValidationError(say("{day} is past: today, {today}, or later.", day=day, today=self.today))
        return day

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not self.chosen():
            self.add_error(None, say("Nothing is picked: a reminder claims one document or more."))
        return data

    def claim_cells(self) -> list[ClaimCell]:
        return [ClaimCell(item, claim, self[f"item_{item.pk}"]) for item, claim in self.rows]  # type: ignore[arg-type]

    def chosen(self) -> list[int]:
        return [item.pk for item, _claim in self.rows if self.cleaned_data.get(f"item_{item.pk}")]


class SentForm(SettingsForm):
    """When, how and where a reminder was sent, and what shows it."""

    key = _fresh()
    on = NotLater(_("On which day?"))
    how = Picked(label=_("How?"), choices=[("", _("choose")), *SentHow.choices])
    to = Line(_("To which address?"), 400, required=True)
    proof = Line(
        _("What shows it?"), 300, help_text=_("Such as the number of the registered letter, or who took it.")
    )

    def __init__(self, *args: Any, today: date, **options: Any) -> None:
        super().__init__(*args, **options)
        as_of(self, today)
