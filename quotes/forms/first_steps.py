"""What loading the price list asks for: a rate, where the workshop reckons in another currency."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.figures import Figure, SettingsForm

HIGHEST = "1000000"


class PriceListForm(SettingsForm):
    """`rate` says how much of the workshop's currency one of the list's is."""

    rate = Figure(_("Rate"), "0.000001", HIGHEST, 6)

    def __init__(self, listed: str, ours: str, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["rate"].label = say("One {listed} is so many {ours}", listed=listed, ours=ours)
        if listed == ours:
            del self.fields["rate"]

    def rate_given(self) -> Decimal:
        return Decimal(self.cleaned_data.get("rate", 1))
