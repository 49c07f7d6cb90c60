"""The money of one day: the workshop's currency and the tax codes with the rates that hold then."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from quotes.calc.defaults import NO_TAX
from quotes.calc.shop import TaxCode
from quotes.models import Workshop
from quotes.queries.tax_rates import tax_codes_on
from quotes.queries.workshop import currency_decimals


@dataclass(frozen=True, slots=True)
class MoneyOfDay:
    """What an invoice is reckoned with."""

    currency: str
    decimals: int
    tax_codes: Mapping[str, TaxCode]


def money_of(on: date, workshop: Workshop | None = None) -> MoneyOfDay:
    """Currency, its decimals, and tax codes as they hold on that day."""
    workshop = workshop or Workshop.objects.get_or_default()
    return MoneyOfDay(workshop.currency, currency_decimals(workshop.currency), codes_of(on))


def codes_of(on: date) -> Mapping[str, TaxCode]:
    """The tax codes that hold on that day; where the workshop has none, the one that takes no tax."""
    return tax_codes_on(on) or {NO_TAX.code: NO_TAX}
