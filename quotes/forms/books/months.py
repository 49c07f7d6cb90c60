"""Closing a month, and opening one again."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.fields import quoted
from quotes.forms.figures import Line, SettingsForm


class WhichMonth(SettingsForm):
    """A month by its year and number."""

    month = Line(_("Month"), 7, required=True)

    def clean_month(self) -> date:
        typed: str = self.cleaned_data["month"]
        try:
            return date.fromisoformat(f"{typed}-01")
        except ValueError:
            raise ValidationError(
                say("{value} is not a month, such as 2026-11.", value=quoted(typed))
            ) from None


class OpenAgain(WhichMonth):
    """A month, and why it is opened again."""

    because = Line(_("Why it is opened again"), 300, required=True)

    def clean_because(self) -> Any:
        return self.cleaned_data["because"].strip()
