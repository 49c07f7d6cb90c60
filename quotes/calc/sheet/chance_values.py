"""How sure it is: the chance with its band, what is due, and the steps from cheapest to safest."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from quotes.calc.ask.request import Unit, Value


class Chance(Value):
    """That the engine does not stop the planned service, with the 80 % band.

    Where the option has a season, it is driven by that plan with the openings made, at the season's price.
    """

    value: float
    low: float
    high: float
    target: float | None
    target_met: bool
    events: int
    first_event: float
    last_event: float
    to_first_opening: float | None = None
    """Chance until the engine must be opened inside the service, which the target is then judged by."""
    to_first_opening_low: float | None = None
    to_first_opening_high: float | None = None
    first_event_low: float | None = None
    first_event_high: float | None = None
    last_event_low: float | None = None
    last_event_high: float | None = None


class WheelLock(Value):
    """Chance that a part which can lock the wheel or oil the tyre fails and stops the engine.

    Over the planned service, or over the worst stretch between openings where there are any: that is what the
    ceiling holds for.
    """

    value: float
    ceiling: float
    met: bool
    low: float | None = None
    high: float | None = None


class Due(Value):
    """The next component whose life runs out, from the start of the planned service."""

    component: str
    name: str
    amount: float
    unit: Unit
    seasons: float


class Opening(Value):
    """When the engine must be opened again inside the planned service."""

    amount: float
    unit: Unit
    sentence: str


class Against(Value):
    """A paired comparison with another option on chance."""

    other: str
    better_share: float
    """Share of the pairs in which this option has the better chance."""
    verdict: Literal["better", "worse", "cannot be told apart"]
    difference: float
    difference_low: float
    difference_high: float
    sentence: str


class LadderStep(Value):
    """One step from cheapest to safest: what it adds, what it costs, what it buys."""

    number: int
    adds: tuple[str, ...]
    names: tuple[str, ...]
    more: Decimal
    """How much dearer than the step before, with tax."""
    gross: Decimal
    chance: float
    is_option: bool
    low: float | None = None
    """The chance between which and `high` 8 in 10 estimates lie; older sheets do not say."""
    high: float | None = None
    bought: str = ""
    """What the step buys, in words."""


OWN_HANDS = "own_hands"
"""Stands for a component where faults of our own are counted among the causes."""


class HazardShare(Value):
    """Where the chance goes: engines in 100 stopped by one component over the planned service."""

    name: str
    state: str
    stops_in_100: float
    component: str = ""
    """Its code, or OWN_HANDS; none for all the rest, and on older sheets."""
