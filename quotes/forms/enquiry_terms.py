"""The owner's terms for bookings, with the slot deposit of each engine type."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext_lazy as _

from quotes.forms.figures import Figure, Line
from quotes.forms.seen import SeenForm
from quotes.models import BookingTerms

MOST_MONEY = "9999999.99"
PRACTICE = _("Default: common practice, no source.")
DEPOSIT = "deposit_"


class TermsForm(SeenForm):
    """One deposit field for each engine type of the catalogue."""

    kept_inside_days = Figure(
        _("The deposit is kept inside"), "0", "365", 0, unit=_("days of the week booked"), help_text=PRACTICE
    )
    spoken_round_to = Figure(
        _("A spoken price is rounded to"),
        "0.01",
        "10000",
        help_text=_("Outward, so that the band holds the sum."),
    )
    storage_free_days = Figure(
        _("Storage costs nothing for"), "0", "365", 0, unit=_("days"), help_text=PRACTICE
    )
    storage_a_day = Figure(_("and after that, a day"), "0", "99999.99", help_text=PRACTICE)
    storage = Line(_("What else is said about storage"), 2000, rows=3)
    bring = Line(_("What to bring, one thing on each line"), 2000, rows=5)

    def __init__(
        self,
        terms: BookingTerms,
        types: Iterable[tuple[str, str]],
        deposits: Mapping[str, Decimal],
        data: Any = None,
    ) -> None:
        initial = {name: getattr(terms, name) for name in self.base_fields}
        super().__init__(data, initial=initial)
        self.terms = terms
        self.types = list(types)
        for code, name in self.types:
            self.fields[DEPOSIT + code] = Figure(name, "0", MOST_MONEY, help_text=PRACTICE)
            self.initial[DEPOSIT + code] = deposits[code]

    @property
    def deposit_cells(self) -> list[Any]:
        return [self[DEPOSIT + code] for code, _ in self.types]

    def value(self) -> BookingTerms:
        """The row as it was typed, not yet kept."""
        for name in self.base_fields:
            setattr(self.terms, name, self.cleaned_data[name])
        return self.terms

    def deposits(self) -> dict[str, Decimal]:
        return {code: self.cleaned_data[DEPOSIT + code] for code, _ in self.types}
