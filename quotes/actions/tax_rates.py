"""Keeping tax codes: another rate is a row with its day, and what held before it stays."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.core.exceptions import ValidationError

from catalogue.calc.said import say
from quotes.actions.saving import save_checked
from quotes.calc.shop import TaxCode, TaxRate
from quotes.calc.workshop_settings import Settings
from quotes.models import TaxCode as TaxCodeRow
from quotes.models import TaxComponent
from quotes.models import TaxRate as TaxRateRow
from quotes.queries.tax_rates import rates_of


def write_tax_codes(settings: Settings, on: date) -> dict[str, TaxCodeRow]:
    """The rows of all codes, each with its rates; a rate without a day of its own holds from `on`.

    ValidationError for a day before the one that the latest rate begins on.
    """
    rows = {row.code: row for row in TaxCodeRow.objects.with_rates()}
    for value in settings.tax_codes:
        row = rows.get(value.code)
        if row is None:
            rows[value.code] = _begun(value)
        elif value.code in settings.rates_dropped:
            latest = row.rates.last()
            if latest is not None and latest.valid_from > on:
                latest.delete()
        else:
            _changed(row, value, settings.rates_from.get(value.code, on))
    return {value.code: rows[value.code] for value in settings.tax_codes}


def _begun(value: TaxCode) -> TaxCodeRow:
    row = save_checked(TaxCodeRow(code=value.code, category=value.category, reason=value.reason))
    for order, layer in enumerate(value.components):
        save_checked(TaxComponent(tax_code=row, order=order, name=layer.name, rate_pct=layer.rate_pct))
    return row


def _changed(row: TaxCodeRow, value: TaxCode, day: date) -> None:
    *before, latest = rates_of(row)
    if _charges(latest.code) == _charges(value):
        _reworded(row, latest, value.reason)
        return
    if latest.valid_from is not None and day < latest.valid_from:
        raise ValidationError(
            say(
                "Tax code {code}: {day} is before {first}, from when its latest rate holds.",
                code=value.code,
                day=day,
                first=latest.valid_from,
            )
        )
    row.rates.filter(valid_from=day).delete()
    if latest.valid_from == day and _charges(before[-1].code) == _charges(value):
        return
    layers = [[layer.name, str(layer.rate_pct)] for layer in value.components]
    save_checked(
        TaxRateRow(
            tax_code=row, valid_from=day, category=value.category, reason=value.reason, components=layers
        )
    )


def _charges(code: TaxCode) -> tuple[Any, ...]:
    return code.category, code.components


def _reworded(row: TaxCodeRow, latest: TaxRate, reason: str) -> None:
    """Other words for why nothing is charged are no other rate."""
    if reason == latest.code.reason:
        return
    held = row.rates.get(valid_from=latest.valid_from) if latest.valid_from else row
    held.reason = reason
    save_checked(held)
