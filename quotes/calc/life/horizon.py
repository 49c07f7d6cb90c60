"""How far an engine is good for, and what falls due first."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from catalogue.calc.engine import Component, EngineCatalogue
from catalogue.calc.said import say
from quotes.calc.life.wear import Wear
from quotes.calc.sheet.words import used_in_words
from quotes.calc.shop import Shop

INSIDE = frozenset({"top_end", "valve_train", "bottom_end"})
"""Groups that can't be reached without opening the engine: the rest comes off with a cover."""
SEASONS_SEEN = 20.0
"""Nothing is said of an engine further ahead than this many planned services."""
NOT_ALL_NEW = 0.93
"""Share of what a new engine could hold, so that good used parts may stay in; tried on the shipped data."""
HALF_USED = 0.7
"""The same where it is opened on the way: at most openings what stays has run a leg or more already."""
OVER_A_LIFE = 1.05
"""A planned life is a habit, no edge: nobody opens an engine a third time for the last hour of a season."""
HAIR = 1e-9
CHORDS, CLOSE, WIDE = 12, 1e-11, 1e-10
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
    """Use until the first opening: the planned service, or an even share of it where that is too long.

    Lives inside it may be passed by a hair; of what floor and ceiling would allow a new engine only a part is
    taken: at the whole of it nothing but new parts would do, now or at the openings.
    """
    soft = min(chance_bound(new, shop, use).use, ceiling_bound(new, catalogue, shop, use).use)
    life = first_life(new, catalogue, use).use * OVER_A_LIFE
    if use <= min(life, NOT_ALL_NEW * soft) or soft <= 0.0:
        return use
    return use / legs(use, min(life, HALF_USED * soft))


def legs(use: float, most: float) -> int:
    """Into how many even legs of at most `most` a use is divided."""
    return max(1, math.ceil(use / most - HAIR))


def chance_bound(wears: Mapping[str, Wear], shop: Shop, use: float, *, fault_hazard: float = 0.0) -> GoodFor:
    """Where the chance of finishing falls under the shop's floor."""
    together = Together(wears)
    reached = _reaches(
        lambda u: shop.shop_factor * together.stopping(u) + fault_hazard,
        -math.log(shop.chance_floor),
        use * SEASONS_SEEN,
    )
    floor = used_in_words(shop.chance_floor)
    return GoodFor(reached, say("the chance of finishing falls under {percent}", percent=floor), None)


def ceiling_bound(wears: Mapping[str, Wear], catalogue: EngineCatalogue, shop: Shop, use: float) -> GoodFor:
    """Where parts that can lock the wheel or oil the tyre reach the shop's ceiling."""
    riders = Together(rider_wears(wears, catalogue))
    reached = _reaches(
        lambda u: shop.shop_factor * riders.stopping(u),
        -math.log(1.0 - shop.rider_safety_ceiling),
        use * SEASONS_SEEN,
    )
    ceiling = used_in_words(shop.rider_safety_ceiling)
    why = say(
        "parts that can lock the wheel or oil the tyre reach their ceiling of {percent}", percent=ceiling
    )
    return GoodFor(reached, why, None)


def first_life(wears: Mapping[str, Wear], catalogue: EngineCatalogue, use: float) -> GoodFor:
    """Where the first life inside the engine runs out."""
    found = GoodFor(use * SEASONS_SEEN, say("nothing inside it runs out before"), None)
    for code, wear in wears.items():
        component = catalogue.components[code]
        if opens_engine_by_age(component) and wear.use_left() < found.use:
            found = GoodFor(wear.use_left(), say("{part}: planned life used up", part=component.name), code)
    return found


def total_stopping(wears: Mapping[str, Wear], use: float) -> float:
    """Stopping hazard of all components over `use`."""
    return sum(wear.stopping_hazard(use) for wear in wears.values())


class Together:
    """Many wears at once, for what is asked of them at many uses."""

    def __init__(self, wears: Mapping[str, Wear]) -> None:
        rows = [
            (w.age, w.rate, w.shape, w.evidence, w.age**w.shape, w.stopping / w.prior_scale)
            for w in wears.values()
        ]
        self._age, self._rate, self._shape, self._evidence, self._power, self._scale = (
            np.array(rows).reshape(-1, 6).T
        )

    def stopping(self, use: float) -> float:
        """Stopping hazard of all of them over `use`: the same as `total_stopping`."""
        damage = (self._age + self._rate * use) ** self._shape - self._power
        return float((self._evidence * np.log1p(self._scale * damage)).sum())


def rider_wears(wears: Mapping[str, Wear], catalogue: EngineCatalogue) -> dict[str, Wear]:
    """Only the components that can lock the wheel or put oil or coolant on the tyre."""
    return {code: wear for code, wear in wears.items() if catalogue.components[code].locks_wheel_or_oils_tyre}


def _reaches(hazard: Callable[[float], float], bound: float, most: float) -> float:
    """Use at which a rising hazard reaches `bound`, by halving; `most` where it does not.

    What lies outside two uses close on either side of it need not be asked.
    """
    at_most = hazard(most)
    if at_most <= bound:
        return most
    under, over = _close_on_it(hazard, bound, most, at_most)
    low, high = 0.0, most
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        if middle <= under or (middle < over and hazard(middle) <= bound):
            low = middle
        else:
            high = middle
    return low


def _close_on_it(
    hazard: Callable[[float], float], bound: float, most: float, at_most: float
) -> tuple[float, float]:
    """A use under the bound and one over it, by chords of which the end that stays is drawn nearer."""
    ends, lacks, last = [0.0, most], [hazard(0.0) - bound, at_most - bound], -1
    if lacks[0] > 0.0:
        return 0.0, most
    for _ in range(CHORDS):
        at = ends[1] - lacks[1] * (ends[1] - ends[0]) / (lacks[1] - lacks[0])
        lack = hazard(at) - bound
        side = int(lack > 0.0)
        ends[side], lacks[side] = at, lack
        if abs(lack) <= CLOSE * bound:
            break
        if side == last:
            lacks[1 - side] /= 2.0
        last = side
    other = ends[side] * (1.0 + WIDE if side == 0 else 1.0 - WIDE)
    if ends[0] < other < ends[1]:
        side = int(hazard(other) > bound)
        ends[side] = other
    return ends[0], ends[1]
