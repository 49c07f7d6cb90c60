"""The leave to strip, the no that may come after it, and what the owner asks for a strip-down."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.actions.bench.declining import NoSaid
from quotes.actions.bench.leave import LeaveGiven
from quotes.calc.bench.said import exact
from quotes.calc.bench.teardown.price import TeardownSums
from quotes.forms.figures import Figure, Line, Picked, SettingsForm
from quotes.forms.seen import SeenForm
from quotes.models import IfNot, SaidHow

MOST = "9999999.99"
CHOOSE = ("", _("choose"))
PRICES = ("price", "put_back", "deposit")


class SaidForm(SettingsForm):
    """Who said it, and how: a call has the number that was called."""

    name = Line(_("Who says so? Full name"), 200, required=True)
    how = Picked(label=_("How?"), choices=[CHOOSE, *SaidHow.choices])
    telephone = Line(_("Number called, where it was by telephone"), 40)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["name"].error_messages["required"] = say("Nothing is given: write the full name.")

    def clean(self) -> dict[str, Any]:
        told = self.cleaned_data
        if told.get("how") == SaidHow.TELEPHONE and not told.get("telephone"):
            self.add_error(
                "telephone", ValidationError(say("Nothing is given: write the number that was called."))
            )
        return told


class LeaveForm(SaidForm):
    """Sums in the workshop's currency, with tax; `currency` is printed beside them."""

    price = Figure(_("The strip-down costs"), "0", MOST)
    put_back_price = Figure(_("Putting it back as it was"), "0", MOST)
    deposit = Figure(_("Deposit before anything is undone"), "0", MOST)
    credited_if_ahead = forms.BooleanField(
        label=_("It is part of the build, and not charged beside it, if the work goes ahead"), required=False
    )
    if_not = Picked(label=_("On a no after the strip-down the engine is"), choices=[CHOOSE, *IfNot.choices])
    right = Line(_("In what right?"), 200)

    def __init__(self, *args: Any, currency: str, **options: Any) -> None:
        super().__init__(*args, **options)
        for name in ("price", "put_back_price", "deposit"):
            self.fields[name].unit = currency  # type: ignore[attr-defined]

    def given(self) -> LeaveGiven:
        return LeaveGiven(**self.cleaned_data)


class NoForm(SaidForm):
    """What becomes of an engine whose owner does not want it built."""

    outcome = Picked(label=_("What becomes of the engine?"), choices=[CHOOSE, *IfNot.choices])
    words = Line(_("In their words"), 500, rows=2)

    def said(self) -> NoSaid:
        return NoSaid(**self.cleaned_data)


class PricesForm(SeenForm):
    """Three sums for each engine type, for an engine that comes loose."""

    def __init__(
        self,
        types: Iterable[tuple[str, str]],
        standing: Mapping[str, TeardownSums],
        currency: str,
        data: Any = None,
    ) -> None:
        super().__init__(data)
        self.types = list(types)
        words = (say("Strip-down"), say("Put back"), say("Deposit"))
        for code, name in self.types:
            for part, word in zip(PRICES, words, strict=True):
                self.fields[f"{part}_{code}"] = Figure(f"{word}, {name}", "0", MOST, unit=currency)
                self.initial[f"{part}_{code}"] = getattr(standing[code], part)

    def rows(self) -> list[tuple[str, list[Any]]]:
        return [(name, [self[f"{part}_{code}"] for part in PRICES]) for code, name in self.types]

    def clean(self) -> dict[str, Any]:
        told = self.cleaned_data
        for code, _name in self.types:
            price, deposit = told.get(f"price_{code}"), told.get(f"deposit_{code}")
            if price is not None and deposit is not None and deposit > price:
                said = say(
                    "“{deposit}” is more than the strip-down itself costs, {price}.",
                    deposit=exact(deposit),
                    price=exact(price),
                )
                self.add_error(f"deposit_{code}", ValidationError(said))
        return told

    def prices(self) -> dict[str, TeardownSums]:
        told = self.cleaned_data
        return {
            code: TeardownSums(**{part: told[f"{part}_{code}"] for part in PRICES})
            for code, _name in self.types
        }
