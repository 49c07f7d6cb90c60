"""Tax codes with their rates: what holds on a day, and all there were and will be."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

from quotes.calc.shop import TaxCode, TaxComponent, TaxRate
from quotes.models import TaxCode as TaxCodeRow


def tax_codes_on(day: date) -> dict[str, TaxCode]:
    """Every tax code with the rate that holds on that day; three queries."""
    return {
        code: [rate.code for rate in rates if rate.valid_from is None or rate.valid_from <= day][-1]
        for code, rates in tax_rates().items()
    }


def tax_rates() -> Mapping[str, tuple[TaxRate, ...]]:
    """By code its rates in their order; the first holds from the beginning."""
    return {row.code: rates_of(row) for row in TaxCodeRow.objects.with_rates()}


def rates_of(row: TaxCodeRow) -> tuple[TaxRate, ...]:
    """The rates of one code, read with it."""
    layers = tuple(TaxComponent(layer.name, layer.rate_pct) for layer in row.components.all())
    first = TaxRate(None, TaxCode(row.code, row.category, layers, row.reason))
    later = (
        TaxRate(rate.valid_from, TaxCode(row.code, rate.category, _layers(rate.components), rate.reason))
        for rate in row.rates.all()
    )
    return (first, *later)


def _layers(pairs: list[tuple[str, str]]) -> tuple[TaxComponent, ...]:
    return tuple(TaxComponent(name, Decimal(rate)) for name, rate in pairs)
