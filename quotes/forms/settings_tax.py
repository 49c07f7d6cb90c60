"""The tax codes on the settings page: what each charges, and from which day another rate holds."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.calc.shop import LINE_KINDS, LineKind, TaxCode, TaxComponent, TaxRate
from quotes.calc.workshop_settings import KIND_NAMES
from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Day, Figure, Line
from quotes.forms.settings_rows import Row, rows_of
from quotes.models import TaxCategory

LAYERS = 3
"""A state, a county and a city."""


class TaxCodeRow(Row):
    code = Line(_("Tax code"), 20)
    category = Choice(label=_("Category"), choices=TaxCategory.choices)
    reason = Line(_("Why nothing is charged, where nothing is"), 200)
    valid_from = Day(_("Another rate holds from"), required=False)
    drop = forms.BooleanField(label=_("Take the latest rate back, its day has not come"), required=False)
    rates: tuple[TaxRate, ...] = ()
    """Those that are kept of the code."""
    today = date.min

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for layer in range(LAYERS):
            self.fields[f"name_{layer}"] = Line(_("Charged by") if layer == 0 else _("and by"), 60)
            self.fields[f"rate_{layer}"] = Figure(_("Rate"), "0", "100", 4, unit="%", required=False)
        for kind in LINE_KINDS:
            self.fields[f"on_{kind}"] = forms.BooleanField(label=say(KIND_NAMES[kind]), required=False)

    def layer_cells(self) -> list[tuple[forms.BoundField, forms.BoundField]]:
        return [(self[f"name_{layer}"], self[f"rate_{layer}"]) for layer in range(LAYERS)]

    def kind_cells(self) -> list[forms.BoundField]:
        return [self[f"on_{kind}"] for kind in LINE_KINDS]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("code") and "code" not in self.errors:
            self.add_error(
                "code", say("Nothing is given: a tax code needs a short name, such as sales or S20.")
            )
        rate = sum((self._layer(layer) for layer in range(LAYERS)), Decimal(0))
        if data.get("category") == TaxCategory.STANDARD and not rate and not self.errors:
            self.add_error("rate_0", say("Category S charges tax: a rate above 0 is needed."))
        if data.get("category") not in (None, TaxCategory.STANDARD) and rate:
            self.add_error(
                "category",
                say(
                    "This category charges nothing, but the rates add up to {rate} %: only S has a rate.",
                    rate=rate,
                ),
            )
        if data.get("category") == TaxCategory.EXEMPT and not data.get("reason"):
            self.add_error(
                "reason", say("Nothing is given: an exemption needs its reason, which is printed.")
            )
        if not self.errors and self.rates and not data.get("drop"):
            self._day(data.get("valid_from"), self.rates[-1])
        return data

    def _day(self, day: date | None, latest: TaxRate) -> None:
        """Another rate has its day, that of the latest or later; a day alone says nothing."""
        value = self.value()
        same = (value.category, value.components) == (latest.code.category, latest.code.components)
        if same and day:
            self.add_error(
                "valid_from", say("{day} is given, and no other rate: write it in above.", day=quoted(day))
            )
        elif not same and day is None:
            self.add_error(
                "valid_from", say("Nothing is given: the rate was changed, so its first day is needed.")
            )
        elif not same and day and latest.valid_from and day < latest.valid_from:
            self.add_error(
                "valid_from",
                say(
                    "{day} is before {first}, from when the latest rate holds: that day or later.",
                    day=quoted(day),
                    first=latest.valid_from,
                ),
            )

    def may_drop(self) -> bool:
        """Whether the latest rate is still to come."""
        latest = self.rates[-1].valid_from if self.rates else None
        return latest is not None and latest > self.today

    def _layer(self, layer: int) -> Decimal:
        name, rate = self.cleaned_data.get(f"name_{layer}"), self.cleaned_data.get(f"rate_{layer}")
        if name and rate is None and f"rate_{layer}" not in self.errors:
            self.add_error(
                f"rate_{layer}",
                say("Nothing is given: {name} needs its rate.", name=quoted(name)),
            )
        if rate is not None and not name:
            self.add_error(
                f"name_{layer}",
                say("Nothing is given: who charges {rate} %? Such as state, county or VAT.", rate=rate),
            )
        return rate or Decimal(0)

    def value(self) -> TaxCode:
        data = self.cleaned_data
        layers = tuple(
            TaxComponent(data[f"name_{layer}"], data[f"rate_{layer}"])
            for layer in range(LAYERS)
            if data[f"name_{layer}"]
        )
        return TaxCode(data["code"], data["category"], layers, data["reason"])

    @staticmethod
    def filled(code: TaxCode, kinds: Sequence[LineKind]) -> dict[str, Any]:
        layers = {f"name_{at}": layer.name for at, layer in enumerate(code.components[:LAYERS])}
        rates = {f"rate_{at}": layer.rate_pct for at, layer in enumerate(code.components[:LAYERS])}
        ticks = {f"on_{kind}": True for kind in kinds}
        return {"code": code.code, "category": code.category, "reason": code.reason} | layers | rates | ticks


TaxCodeRows = rows_of(TaxCodeRow, "code")
