"""Choosing a day, or a stretch of days, at the head of a sheet."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.figures import Day, SettingsForm


class OneDay(SettingsForm):
    """Up to which day; today where nothing, or nothing sound, is given."""

    on = Day(_("Up to and with"), required=False)

    def __init__(self, data: Mapping[str, Any], *, today: date) -> None:
        self.today = today
        super().__init__({"on": data.get("on") or today.isoformat()})

    def day(self) -> date:
        return (self.cleaned_data.get("on") if self.is_valid() else None) or self.today


class TwoDays(SettingsForm):
    """From one day to another, both included; either may be left out."""

    first = Day(_("From"), required=False)
    last = Day(_("To"), required=False)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        first, last = data.get("first"), data.get("last")
        if first and last and last < first:
            self.add_error(
                "last",
                say("“{last}” is before {first}: it must be that day or later.", last=last, first=first),
            )
        return data


class Period(TwoDays):
    """Two days, with those that it begins with."""

    def __init__(self, data: Mapping[str, Any], *, first: date, last: date) -> None:
        self.without = (first, last)
        typed = {
            "first": data.get("first") or first.isoformat(),
            "last": data.get("last") or last.isoformat(),
        }
        super().__init__(typed)

    def days(self) -> tuple[date, date]:
        """Both days; those it began with where what was typed is not sound."""
        if not self.is_valid():
            return self.without
        return self.cleaned_data["first"], self.cleaned_data["last"]
