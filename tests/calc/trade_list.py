"""Reading a job straight off the catalogue: what work needs, a way in to a component, what is taken new.

The trade prices a job so. The product works the same out of one graph (`quotes/calc/scope/implications.py`),
and the tests hold one against the other.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Delivered
from quotes.calc.work.bought import to_buy
from quotes.calc.work.work_set import NO_HOURS, included_elsewhere, operation_of


def brings(catalogue: EngineCatalogue, code: str, delivered: Delivered) -> tuple[str, ...]:
    """What one operation brings into any job that it is in: what it requires, and its undo."""
    operation = operation_of(catalogue, code)
    in_chassis = operation.requires_in_chassis if delivered == "in_chassis" else ()
    return (*operation.requires, *in_chassis, *operation.undo)


def job_closure(catalogue: EngineCatalogue, wanted: Iterable[str], *, delivered: Delivered) -> frozenset[str]:
    """The operations of a job: those wanted, closed over what they require, with the undo of each strip.

    An operation that is included in a larger one of the job (INCLUDED_THERE) is left out.
    Raises UnknownOperationError.
    """
    closed: set[str] = set()
    waiting = list(wanted)
    while waiting:
        code = waiting.pop()
        if code not in closed:
            closed.add(code)
            waiting.extend(brings(catalogue, code, delivered))
    return frozenset(closed - included_elsewhere(closed))


def hours(catalogue: EngineCatalogue, operations: Iterable[str]) -> Decimal:
    """Bench hours of these operations, each counted once, not rounded."""
    return sum((operation_of(catalogue, code).hours for code in set(operations)), NO_HOURS)


def ways_in(catalogue: EngineCatalogue, component: str) -> tuple[tuple[str, ...], ...]:
    """The ways in to a component: each is a set of operations that reaches it. At least one; may be empty."""
    place = catalogue.components[component]
    ways = place.access_any_of or ((),)
    return tuple(tuple(dict.fromkeys((*place.access_operations, *way))) for way in ways)


def cheapest_way_in(
    catalogue: EngineCatalogue, component: str, have: Collection[str], *, delivered: Delivered
) -> tuple[str, ...]:
    """The way in that adds the fewest hours to a job that already holds `have`; of equals the first named."""

    def hours_with(way: tuple[str, ...]) -> Decimal:
        return hours(catalogue, job_closure(catalogue, (*have, *way), delivered=delivered))

    return min(ways_in(catalogue, component), key=hours_with)


def taken_new(catalogue: EngineCatalogue, operations: Iterable[str]) -> dict[str, int | None]:
    """What the operations take new because it can't be used again, by component; None is the full set.

    Numbers add up over the operations, to the full quantity of the price list at most.
    """
    taken: dict[str, int | None] = {}
    for code in sorted(set(operations)):
        for part in operation_of(catalogue, code).consumes:
            if part.rule == "always":
                so_far = taken.get(part.component, 0)
                whole = part.quantity is None or so_far is None
                taken[part.component] = None if whole else (so_far or 0) + (part.quantity or 0)
    return to_buy(catalogue, (), taken)
