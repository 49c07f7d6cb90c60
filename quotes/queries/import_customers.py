"""What a file of customers is held against: the codes of the catalogue and the records as they are."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from catalogue.queries import duty_choices, engine_catalogue, engine_type_choices, tier_choices
from quotes.calc.intake.customer_plan import (
    CustomerKept,
    CustomersPlan,
    EngineKept,
    SegmentKept,
    plan_customers,
)
from quotes.calc.intake.given_customers import CustomerGiven, engine_key
from quotes.calc.life.units import usable
from quotes.models import Customer, Engine, Segment

Codes = dict[str, str]


def code_choices() -> tuple[Codes, Codes, Codes, dict[str, tuple[str, ...]]]:
    """Engine types, duties and tiers by code with their names, and the units that each duty can carry."""
    types = dict(engine_type_choices())
    units: dict[str, tuple[str, ...]] = {}
    for code in types:
        units |= {duty.code: usable(duty) for duty in engine_catalogue(code).duties.values()}
    return types, dict(duty_choices()), dict(tier_choices()), units


def plan_against_records(given: Collection[CustomerGiven]) -> CustomersPlan:
    """Hold a file against the records. Takes three queries whatever the file and the records hold."""
    fields = ("pk", "name", "email", "telephone", "address", "tax_registration", "country")
    customers = [CustomerKept(*row) for row in Customer.objects.order_by("pk").values_list(*fields)]
    return plan_customers(given, customers, _engines(given))


def _engines(given: Iterable[CustomerGiven]) -> list[EngineKept]:
    """The engines in the records that the file may mean, with their stretches of service."""
    wanted = {engine.key for customer in given for engine in customer.engines}
    engines = Engine.objects.exclude(number="").order_by("pk")
    found = [
        row
        for row in engines.values_list("pk", "customer_id", "customer__name", "type_code", "number")
        if engine_key(row[3], row[4]) in wanted
    ]
    past: dict[int, list[SegmentKept]] = {}
    for row in Segment.objects.order_by("engine_id", "order", "pk"):
        stretch = (row.amount, row.unit, row.duty, row.tier, row.start, row.end)
        past.setdefault(row.engine_id, []).append(stretch)
    return [EngineKept(*one, segments=tuple(past.get(one[0], ()))) for one in found]
