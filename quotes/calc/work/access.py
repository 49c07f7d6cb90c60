"""Ways in to a component, and the one that costs a job the least bench hours more."""

from __future__ import annotations

from collections.abc import Collection
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Delivered
from quotes.calc.work.work_set import hours, job_closure


def access_choices(catalogue: EngineCatalogue, component: str) -> tuple[tuple[str, ...], ...]:
    """The ways in to a component: each is a set of operations that reaches it. At least one; may be empty."""
    place = catalogue.components[component]
    ways = place.access_any_of or ((),)
    return tuple(tuple(dict.fromkeys((*place.access_operations, *way))) for way in ways)


def cheapest_access(
    catalogue: EngineCatalogue,
    component: str,
    have: Collection[str] = frozenset(),
    *,
    delivered: Delivered = "loose",
) -> tuple[str, ...]:
    """The way in that adds the fewest hours to a job that already holds `have`; of equals the first named.

    The operations are those wanted, not closed over what they require.
    """

    def hours_with(way: tuple[str, ...]) -> Decimal:
        return hours(catalogue, job_closure(catalogue, (*have, *way), delivered=delivered))

    return min(access_choices(catalogue, component), key=hours_with)
