"""Tax codes with their rates: what holds on a day, and all there were and will be."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from quotes.calc.shop import TaxCode, TaxComponent, TaxRate
from quotes.models import TaxCode as TaxCodeRow
from quotes.models import TaxComponent as TaxComponentRow
from quotes.models import TaxRate as TaxRateRow

OF_A_RATE = ("category", "components", "reason")


def tax_codes_on(day: date) -> dict[str, TaxCode]:
    """Every tax code with the rate that holds on that day; three queries."""
    return {
        code: [rate.code for rate in rates if rate.valid_from is None or rate.valid_from <= day][-1]
        for code, rates in tax_rates().items()
    }


def tax_rates() -> Mapping[str, tuple[TaxRate, ...]]:
    """By code its rates in their order; the first holds from the beginning."""
    # Plain values: rows with their prefetched rows take twice as long, and every sum begins here.
    codes = tuple(TaxCodeRow.objects.values_list("pk", "code", "category", "reason"))
    if not codes:
        return {}
    layers: dict[int, list[TaxComponent]] = defaultdict(list)
    later: dict[int, list[Sequence[Any]]] = defaultdict(list)
    for key, name, rate_pct in TaxComponentRow.objects.values_list("tax_code", "name", "rate_pct"):
        layers[key].append(TaxComponent(name, rate_pct))
    for key, *rate in TaxRateRow.objects.values_list("tax_code", "valid_from", *OF_A_RATE):
        later[key].append(rate)
    return {
        code: _in_order(TaxCode(code, category, tuple(layers[key]), reason), later[key])
        for key, code, category, reason in codes
    }


def rates_of(row: TaxCodeRow) -> tuple[TaxRate, ...]:
    """The rates of one code, read with it."""
    layers = tuple(TaxComponent(layer.name, layer.rate_pct) for layer in row.components.all())
    later = [(rate.valid_from, rate.category, rate.components, rate.reason) for rate in row.rates.all()]
    return _in_order(TaxCode(row.code, row.category, layers, row.reason), later)


def _in_order(first: TaxCode, later: Iterable[Sequence[Any]]) -> tuple[TaxRate, ...]:
    from_a_day = (
        TaxRate(valid_from, TaxCode(first.code, category, _layers(components), reason))
        for valid_from, category, components, reason in later
    )
    return (TaxRate(None, first), *from_a_day)


def _layers(pairs: list[tuple[str, str]]) -> tuple[TaxComponent, ...]:
    return tuple(TaxComponent(name, Decimal(rate)) for name, rate in pairs)
