"""What an export is to hold: all that is new, or what is new in a period."""

from __future__ import annotations

from datetime import date
from typing import Any

from quotes.forms.figures import Day, SettingsForm


class ExportPeriod(SettingsForm):
    """Both days included; without them everything that no batch holds."""

    first = Day("From", required=False)
    last = Day("To", required=False)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        first, last = data.get("first"), data.get("last")
        if first and last and last < first:
            self.add_error("last", f"“{last}” is before {first}: it must be that day or later.")
        return data

    def days(self) -> tuple[date | None, date | None]:
        """The days given, or neither where what was typed is not sound."""
        if not self.is_valid():
            return None, None
        return self.cleaned_data["first"], self.cleaned_data["last"]
