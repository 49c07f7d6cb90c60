"""What the workshop's own record offers: hours by operation and engine type, lead times by supplier."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Sum

from catalogue.calc.money import ZERO
from catalogue.queries import engine_type_choices
from quotes.calc.bench.offered import OfferedHours, OfferedLead, offered_hours, offered_lead
from quotes.calc.dates.open_days import ONE_DAY, is_open
from quotes.models import OrderEvent, WorkedHours, Workshop
from quotes.queries.engines import known_catalogue
from quotes.queries.workshop import closed_days


@dataclass(frozen=True, slots=True)
class HoursLearned:
    """Offered hours of one operation on one engine type, with its name."""

    type_name: str
    name: str
    offered: OfferedHours


def hours_learned() -> list[HoursLearned]:
    """Operations whose clocked hours say something, those furthest from their standard first."""
    names = dict(engine_type_choices())
    found = []
    for (type_code, operation), clocked in _clocked().items():
        catalogue = known_catalogue(type_code)
        known = catalogue.operations.get(operation) if catalogue else None
        offered = offered_hours(operation, known.hours, clocked) if known else None
        if known and offered:
            found.append(HoursLearned(names.get(type_code, type_code), known.name, offered))
    return sorted(found, key=lambda one: (-abs(one.offered.change_pct), one.name))


def _clocked() -> dict[tuple[str, str], list[Decimal]]:
    """Hours clocked on each operation, job by job, by engine type; only of engines that have been done."""
    rows = (
        WorkedHours.objects.filter(build__done_at__isnull=False)
        .exclude(operation="")
        .values_list("build__quote__engine__type_code", "operation", "build__done_at", "build_id")
        .annotate(total=Sum("hours"))
        .order_by("build__done_at", "build_id")
    )
    found: dict[tuple[str, str], list[Decimal]] = defaultdict(list)
    for type_code, operation, _, _, total in rows:
        found[type_code, operation].append(total or ZERO)
    return found


def leads_learned(on: date) -> list[OfferedLead]:
    """What each supplier really took, from order to good receipt, in working days."""
    closed = closed_days(Workshop.objects.get_or_default(), on.replace(year=on.year - 1))
    taken: dict[str, list[int]] = defaultdict(list)
    rows = OrderEvent.objects.filter(kind="received").order_by("on", "pk")
    for supplier, ordered, received in rows.values_list(
        "line__order__supplier_name", "line__order__ordered_on", "on"
    ):
        taken[supplier].append(_working_days(ordered, received, closed))
    offers = (offered_lead(supplier, days) for supplier, days in sorted(taken.items()))
    return [offer for offer in offers if offer]


def _working_days(first: date, last: date, closed: Collection[date]) -> int:
    days, count = first, 0
    while days < last:
        days += ONE_DAY
        count += is_open(days, closed)
    return count
