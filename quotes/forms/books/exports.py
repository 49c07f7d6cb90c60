"""What an export is to hold: all that is new, or what is new in a period."""

from __future__ import annotations

from datetime import date

from quotes.forms.books.days import TwoDays


class ExportPeriod(TwoDays):
    """Without days it is everything that no batch holds."""

    def days(self) -> tuple[date | None, date | None]:
        """The days given, or neither where what was typed is not sound."""
        if not self.is_valid():
            return None, None
        return self.cleaned_data["first"], self.cleaned_data["last"]
