"""How far an engine is good for, and what falls due first."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from catalogue.calc.engine import Component, EngineCatalogue
from quotes.calc.life.wear import Wear
from quotes.calc.sheet.words import used_in_words
from quotes.calc.shop import Shop

INSIDE = frozenset({"top_end", "valve_train", "bottom_end"})
"""Groups that can't be reached without opening the engine: the rest comes off with a cover."""
SEASONS_SEEN = 20.0
"""Nothing is said of an engine further ahead than this many planned services."""
NOT_ALL_NEW = 0.8
"""Share of what a new engine could hold, so that good used parts may stay in; from memory."""
HALVINGS = 36
"""Enough to find a use to a part in ten thousand million."""


@dataclass(frozen=True, slots=True)
class GoodFor:
    """Use, in the planned basis unit, after which the engine must be opened, and what says so."""

    use: float
    reason: str
    component: str | None


def opens_engine_by_age(component: Component) -> bool:
    """Whether its life running out means that the engine is opened again."""
    return (
        component.judged_by == "life"
        and component.group in INSIDE
        and component.consequence_class != "session"
        and not component.service_item
    )


def good_for(
    wears: Mapping[str, Wear],
    catalogue: EngineCatalogue,
    shop: Shop,
    *,
    use: float,
    fault_hazard: float = 0.0,
) -> GoodFor:
    """The least of: a life inside the engine run out, the chance floor, the rider-safety ceiling.

    `use` is the planned service; nothing is looked for beyond SEASONS_SEEN of them.
    """
    bounds = (
        first_life(wears, catalogue, use),
        chance_bound(wears, shop, use, fault_hazard=fault_hazard),
        ceiling_bound(wears, catalogue, shop, use),
    )
    return min(bounds, key=lambda bound: bound.use)


def leg(new: Mapping[str, Wear], catalogue: EngineCatalogue, shop: Shop, use: float) -> float:
    """Use until the first opening: the planned service, or less where even a new engine does not hold it.

    Lives inside the engine bound it as they are. Of what floor and ceiling would allow a new engine only
    NOT_ALL_NEW is taken: at the whole of it nothing but new parts would do.
    """
    soft = min(chance_bound(new, shop, use).use, ceiling_bound(new, catalogue, shop, use).use)
    return min(use, first_life(new, catalogue, use).use, NOT_ALL_NEW * soft)


def chance_bound(wears: Mapping[str, Wear], shop: Shop, use: float, *, fault_hazard: float = 0.0) -> GoodFor:
    """Where the chance of finishing falls under the shop's floor."""
    reached = _reaches(
        lambda u: shop.shop_factor * total_stopping(wears, u) + fault_hazard,
        -math.log(shop.chance_floor),
        use * SEASONS_SEEN,
    )
    return GoodFor(reached, f"the chance of finishing falls under {used_in_words(shop.chance_floor)}", None)


def ceiling_bound(wears: Mapping[str, Wear], catalogue: EngineCatalogue, shop: Shop, use: float) -> GoodFor:
    """Where parts that can lock the wheel or oil the tyre reach the shop's ceiling."""
    riders = rider_wears(wears, catalogue)
    reached = _reaches(
        lambda u: shop.shop_factor * total_stopping(riders, u),
        -math.log(1.0 - shop.rider_safety_ceiling),
        use * SEASONS_SEEN,
    )
    ceiling = used_in_words(shop.rider_safety_ceiling)
    why = f"parts that can lock the wheel or oil the tyre reach their ceiling of {ceiling}"
    return GoodFor(reached, why, None)


def first_life(wears: Mapping[str, Wear], catalogue: EngineCatalogue, use: float) -> GoodFor:
    """Where the first life inside the engine runs out."""
    found = GoodFor(use * SEASONS_SEEN, "nothing inside it runs out before", None)
    for code, wear in wears.items():
        component = catalogue.components[code]
        if opens_engine_by_age(component) and wear.use_left() < found.use:
            found = GoodFor(wear.use_left(), f"{component.name}: planned life used up", code)
    return found


def total_stopping(wears: Mapping[str, Wear], use: float) -> float:
    """Stopping hazard of all components over `use`."""
    return sum(wear.stopping_hazard(use) for wear in wears.values())


def rider_wears(wears: Mapping[str, Wear], catalogue: EngineCatalogue) -> dict[str, Wear]:
    """Only the components that can lock the wheel or put oil or coolant on the tyre."""
    return {code: wear for code, wear in wears.items() if catalogue.components[code].locks_wheel_or_oils_tyre}


def _reaches(hazard: Callable[[float], float], bound: float, most: float) -> float:
    """Use at which a rising hazard reaches `bound`, by halving; `most` where it does not."""
    if hazard(most) <= bound:
        return most
    low, high = 0.0, most
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        if hazard(middle) > bound:
            high = middle
        else:
            low = middle
    return low
