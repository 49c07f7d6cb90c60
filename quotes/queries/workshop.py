"""The workshop's rules as the sums know them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from functools import lru_cache
from typing import Literal, cast

from babel.numbers import get_currency_precision

from quotes.calc import shop as calc
from quotes.calc.defaults import LABOUR_RATES, MARKUP_BANDS, NO_TAX, NO_TAX_ON
from quotes.models import ClassRule, ClosedDay, LabourRate, MarkupBand, TaxCode, Workshop
from quotes.queries.slots import JobInHand, hours_in_hand
from quotes.queries.tax_rates import tax_codes_on

CALENDAR_YEARS = 3
"""No quote promises a day further away than two years after its own."""


def shop_rules(on: date, jobs: Sequence[JobInHand] | None = None) -> calc.Shop:
    """The workshop as it stands, with the calendar of the year of `on` and the two after.

    Takes the same number of queries whatever is in the lists. What has not been set is at its default.
    `jobs` are those in hand, where they have been read.
    """
    workshop = Workshop.objects.get_or_default()
    tax_codes = tax_codes_on(on)
    closed = closed_days(workshop, on)
    shop = calc.Shop(
        currency=workshop.currency,
        decimals=currency_decimals(workshop.currency),
        labour_rates=labour_rates(),
        markup_bands=markup_bands(),
        cap_at_list=workshop.cap_at_list,
        machine_work_markup_pct=workshop.machine_work_markup_pct,
        consumables=calc.ConsumablesRule(
            workshop.consumables_pct, workshop.consumables_least, workshop.consumables_most
        ),
        deposit=calc.DepositRule(workshop.deposit_pct),
        tax_codes={**tax_codes, NO_TAX.code: NO_TAX} if _taxability_gaps(workshop) else tax_codes,
        taxability=taxability(workshop),
        prices_include_tax_in_talk=workshop.prices_include_tax_in_talk,
        queue=calc.Queue(workshop.bench_hours_a_day, hours_in_hand(on, workshop, closed, jobs), closed),
        quote_validity_days=workshop.quote_validity_days,
        limit_without_asking_pct=workshop.limit_without_asking_pct,
        hours_spread_pct=workshop.hours_spread_pct,
        classes=_classes(),
        distance_unit=cast(Literal["mi", "km"], str(workshop.distance_unit)),
    )
    return _with_risk(shop, workshop)


def _with_risk(shop: calc.Shop, workshop: Workshop) -> calc.Shop:
    """What the chances are reckoned with, and what the owner does about them."""
    return replace(
        shop,
        shop_factor=float(workshop.shop_factor),
        assembly_fault_chance=float(workshop.assembly_fault_chance),
        rider_safety_ceiling=float(workshop.rider_safety_ceiling),
        chance_floor=float(workshop.chance_floor),
        refuses_unsafe=workshop.refuses_unsafe,
        fault_cost=workshop.fault_cost,
        session_loss=workshop.session_loss,
        weekend_loss=workshop.weekend_loss,
        renew_policy_parts=workshop.renew_policy_parts,
    )


def currency_decimals(currency: str) -> int:
    """Decimal places of a currency's smallest coin."""
    return get_currency_precision(currency)


def labour_rates() -> Mapping[str, Decimal]:
    """Price of an hour by kind of work; a kind without a row is at its default."""
    return dict(LABOUR_RATES) | dict(LabourRate.objects.values_list("kind", "per_hour"))


def markup_bands() -> tuple[calc.MarkupBand, ...]:
    """The markup schedule in order of cost, or the default one."""
    rows = MarkupBand.objects.order_by("cost_from").values_list("cost_from", "markup_pct")
    return tuple(calc.MarkupBand(cost, markup) for cost, markup in rows) or MARKUP_BANDS


def taxability(workshop: Workshop) -> Mapping[calc.LineKind, str]:
    """Tax code by line kind; a kind that has none is outside tax, which a set-up check points out."""
    chosen: Mapping[calc.LineKind, TaxCode | None] = {
        "labour": workshop.tax_on_labour,
        "part": workshop.tax_on_parts,
        "machine_work": workshop.tax_on_machine_work,
        "consumables": workshop.tax_on_consumables,
    }
    return {kind: code.code if code else NO_TAX_ON[kind] for kind, code in chosen.items()}


def _taxability_gaps(workshop: Workshop) -> bool:
    return NO_TAX.code in taxability(workshop).values()


def _classes() -> dict[str, calc.ClassRule]:
    return {row.code: class_rule_value(row) for row in ClassRule.objects.all()}


def class_rule_value(row: ClassRule) -> calc.ClassRule:
    return calc.ClassRule(row.code, row.name, row.allows)


def closed_days(workshop: Workshop, on: date) -> frozenset[date]:
    """Public holidays of the workshop's calendar and its own closed days, from the year of `on`."""
    years = tuple(range(on.year, on.year + CALENDAR_YEARS))
    own: set[date] = set()
    for row in ClosedDay.objects.filter(last__year__gte=years[0], first__year__lte=years[-1]):
        own.update(row.first + timedelta(days=day) for day in range((row.last - row.first).days + 1))
    return public_holidays(workshop.calendar_country, workshop.calendar_region, years) | own


@lru_cache(maxsize=32)
def public_holidays(country: str, region: str, years: tuple[int, ...]) -> frozenset[date]:
    """Public holidays of a country and region (ISO 3166 codes); none where the calendar is not known."""
    if not country:
        return frozenset()
    import holidays

    try:
        found = holidays.country_holidays(country, subdiv=region or None, years=years)
    except NotImplementedError:
        return frozenset()
    return frozenset(found)
