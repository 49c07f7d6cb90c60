"""What has been taken off an engine over its life: skims and regrinds add up, replatings are counted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from catalogue.calc.money import ZERO
from catalogue.calc.said import to_say

Kind = Literal["skim", "regrind", "replate", "seat_cut"]
OF_WORK: dict[str, Kind] = {
    "head_skim": "skim",
    "deck_skim": "skim",
    "crank_grind": "regrind",
    "crank_polish": "regrind",
    "replate": "replate",
    "seat_cut": "seat_cut",
}
"""Machine work whose traces stay in the part for good."""
MOST_REPLATINGS = 1
"""One maker allows a cylinder to be replated once: service manual page, 800-class plated-bore twin [S19]."""
GOES_WITH: dict[str, tuple[str, ...]] = {
    "replate": (to_say("the pistons that will run in it, numbered"),),
    "bore_hone": (to_say("the pistons that will run in it, numbered"),),
    "plateau_hone": (to_say("the pistons that will run in it, numbered"),),
    "seat_cut": (
        to_say("the valves that will be fitted, in their places"),
        to_say("guides already fitted and sized"),
    ),
    "guide_renew": (to_say("the new guides"), to_say("one new valve of each size")),
    "seat_insert": (to_say("the valves that will be fitted, in their places"),),
    "crank_rebuild": (to_say("the new rod kit, unopened"),),
    "crank_balance": (to_say("rods, pistons, pins, rings and clips, weighed as sets"),),
    "rod_resize": (to_say("the new bolts"), to_say("the shells' sizes")),
}
"""What is sent along so that the work can be done to size; common practice, no source."""


@dataclass(frozen=True, slots=True)
class MachinedOff:
    """One piece of machine work that came back. `depth_mm` where something was taken off."""

    kind: Kind
    component: str
    depth_mm: Decimal | None


@dataclass(frozen=True, slots=True)
class RunningTotal:
    """What one component of one engine has lost by one kind of work: how often, and how much in mm."""

    kind: Kind
    component: str
    times: int
    depth_mm: Decimal

    @property
    def is_spent(self) -> bool:
        """Whether once more is once too often, by the one maker's rule that we know."""
        return self.kind == "replate" and self.times >= MOST_REPLATINGS


def running_totals(taken: Iterable[MachinedOff]) -> tuple[RunningTotal, ...]:
    """By component and kind, in the order in which they were first done."""
    totals: dict[tuple[str, Kind], RunningTotal] = {}
    for one in taken:
        key = (one.component, one.kind)
        so_far = totals.get(key) or RunningTotal(one.kind, one.component, 0, ZERO)
        totals[key] = RunningTotal(
            one.kind, one.component, so_far.times + 1, so_far.depth_mm + (one.depth_mm or ZERO)
        )
    return tuple(totals.values())
