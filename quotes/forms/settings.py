"""The settings page as one: the workshop's own fields and the lists beside them, kept together."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from catalogue.calc.said import say
from quotes.calc.defaults import TERMS
from quotes.calc.shop import LINE_KINDS, LineKind
from quotes.calc.workshop_settings import KIND_NAMES, Settings
from quotes.forms.settings_fields import WorkshopForm
from quotes.forms.settings_rows import (
    BandRows,
    ClassRows,
    ClosedRows,
    RatesForm,
    Rows,
)
from quotes.forms.settings_sections import SECTIONS, cells
from quotes.forms.settings_tax import TaxCodeRow, TaxCodeRows


class SettingsPage:
    """Filled from the settings that stand, or from what was typed."""

    def __init__(self, settings: Settings, today: date, data: Mapping[str, Any] | None = None) -> None:
        fields = dict(settings.fields)
        fields["terms"] = fields["terms"] or "\n\n".join(map(say, TERMS))
        kinds_of = {code.code: _kinds(settings, code.code) for code in settings.tax_codes}
        self.workshop = WorkshopForm(data, initial=fields)
        self.rates = RatesForm(data, initial=settings.labour_rates, prefix="rate")
        tax_codes = [TaxCodeRow.filled(code, kinds_of[code.code]) for code in settings.tax_codes]
        self.tax_codes = TaxCodeRows(data, initial=tax_codes, prefix="tax")
        for row in self.tax_codes.forms:
            row.rates = settings.tax_rates.get(str(row["code"].value() or "").strip(), ())
            row.today = today
        bands = [
            {"cost_from": band.cost_from, "markup_pct": band.markup_pct} for band in settings.markup_bands
        ]
        self.bands = BandRows(data, initial=bands, prefix="band")
        self.classes = ClassRows(
            data, initial=[ClassRows.form.filled(rule) for rule in settings.classes], prefix="class"
        )
        days = [{"first": days.first, "last": days.last, "note": days.note} for days in settings.closed_days]
        self.closed_days = ClosedRows(data, initial=days, prefix="closed")

    @property
    def lists(self) -> tuple[Rows, ...]:
        return (self.tax_codes, self.bands, self.classes, self.closed_days)

    def sections(self) -> list[tuple[Any, Any]]:
        """The sections in their order, each with its cells."""
        return [(section, list(cells(self.workshop, section))) for section in SECTIONS]

    def is_valid(self) -> bool:
        """Checks every part, so that all faults stand on the page at once."""
        sound = [self.workshop.is_valid(), self.rates.is_valid(), *(rows.is_valid() for rows in self.lists)]
        return all(sound) and self._one_code_a_kind() and self._markup_from_nought()

    def _one_code_a_kind(self) -> bool:
        sound = True
        for kind in LINE_KINDS:
            ticked = [row for row in self.tax_codes.standing() if row.cleaned_data[f"on_{kind}"]]
            for row in ticked[1:]:
                first = ticked[0].cleaned_data["code"]
                row.add_error(
                    f"on_{kind}",
                    say(
                        "{kind} is ticked at “{first}” already: one code each.",
                        kind=say(KIND_NAMES[kind]),
                        first=first,
                    ),
                )
                sound = False
        return sound

    def _markup_from_nought(self) -> bool:
        rows = self.bands.standing()
        lowest = min(rows, key=lambda row: row.cleaned_data["cost_from"], default=None)
        if lowest is None or lowest.cleaned_data["cost_from"] == 0:
            return True
        start = lowest.cleaned_data["cost_from"]
        lowest.add_error(
            "cost_from",
            say("“{start}” leaves parts below it without markup: the first is from 0.", start=start),
        )
        return False

    def value(self) -> Settings:
        """What was typed, once it is valid."""
        tax_rows = self.tax_codes.standing()
        return Settings(
            fields=self.workshop.cleaned_data,
            tax_codes=tuple(row.value() for row in tax_rows),
            taxability={
                kind: row.cleaned_data["code"]
                for kind in LINE_KINDS
                for row in tax_rows
                if row.cleaned_data[f"on_{kind}"]
            },
            labour_rates=self.rates.cleaned_data,
            markup_bands=tuple(row.value() for row in self.bands.standing()),
            classes=tuple(row.value() for row in self.classes.standing()),
            closed_days=tuple(row.value() for row in self.closed_days.standing()),
            rates_from={
                row.cleaned_data["code"]: row.cleaned_data["valid_from"]
                for row in tax_rows
                if row.cleaned_data["valid_from"]
            },
            rates_dropped=frozenset(
                row.cleaned_data["code"] for row in tax_rows if row.cleaned_data["drop"] and row.may_drop()
            ),
        )


def _kinds(settings: Settings, code: str) -> list[LineKind]:
    return [kind for kind in LINE_KINDS if settings.taxability.get(kind) == code]
