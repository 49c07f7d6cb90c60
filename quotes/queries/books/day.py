"""The money of one day: the workshop's currency and the tax codes with the rates that hold then."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quotes.calc.defaults import NO_TAX
from quotes.calc.shop import TaxCode, TaxComponent
from quotes.models import TaxCode as TaxCodeRow
from quotes.models import TaxCodeBefore, Workshop
from quotes.queries.workshop import currency_decimals, tax_code_value


@dataclass(frozen=True, slots=True)
class MoneyOfDay:
    """What an invoice is reckoned with."""

    currency: str
    decimals: int
    tax_codes: Mapping[str, TaxCode]


def money_of(on: date, workshop: Workshop | None = None) -> MoneyOfDay:
    """Currency, its decimals, and tax codes as they hold on that day."""
    workshop = workshop or Workshop.objects.get_or_default()
    codes = {row.code: tax_code_value(row) for row in TaxCodeRow.objects.with_components()}
    for row in reversed(TaxCodeBefore.objects.on(on)):
        if row.code in codes:
            codes[row.code] = _as_it_was(row)
    return MoneyOfDay(workshop.currency, currency_decimals(workshop.currency), codes or {NO_TAX.code: NO_TAX})


def _as_it_was(row: TaxCodeBefore) -> TaxCode:
    layers = tuple(TaxComponent(name, Decimal(rate)) for name, rate in row.components)
    return TaxCode(row.code, row.category, layers, row.reason)
