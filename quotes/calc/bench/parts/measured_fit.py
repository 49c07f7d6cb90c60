"""Parts whose size is chosen by a measurement: none is ordered before the reading it waits for.

Common practice, no source: shells go by journal and big end, shims by the clearance over new-cut seats,
pistons and rings by the bore.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Literal

from catalogue.calc.said import say, to_say

When = Literal["as_received", "stripped", "machined"]


@dataclass(frozen=True, slots=True)
class MeasuredFit:
    """A part, the components of which one must have been measured, and why.

    After one of the `machined_by` works in the same job only a reading taken when it was back counts.
    `plain_bearings` holds the rule to engines with plain shells: a rolling bearing has one size.
    """

    component: str
    by: tuple[str, ...]
    reading: str
    reason: str
    machined_by: frozenset[str] = frozenset()
    plain_bearings: bool = False
    bore_work_only: bool = False
    """Holds only where the bore is worked on: in a sound bore the standard part goes back in."""


BORE_WORK = frozenset({"replate", "bore_hone", "plateau_hone"})
CRANK_WORK = frozenset({"crank_grind", "crank_polish", "crank_rebuild"})
SEAT_WORK = frozenset({"seat_cut", "seat_insert", "guide_renew"})
MEASURED_FIT: tuple[MeasuredFit, ...] = (
    MeasuredFit(
        "rod_bearing",
        ("rod_bearing", "crankshaft"),
        to_say("the big-end journals or their clearance"),
        to_say("shells are picked by colour to journal and rod"),
        CRANK_WORK | {"rod_resize"},
        plain_bearings=True,
    ),
    MeasuredFit(
        "main_bearing",
        ("main_bearing", "crankshaft"),
        to_say("the main journals or their clearance"),
        to_say("shells are picked by colour to journal and case"),
        CRANK_WORK | {"line_bore"},
        plain_bearings=True,
    ),
    MeasuredFit(
        "shim",
        ("shim", "valve_intake", "valve_exhaust", "valve_seat"),
        to_say("the valve clearances"),
        to_say("each shim is picked by the clearance of its valve"),
        SEAT_WORK,
    ),
    MeasuredFit(
        "piston",
        ("bore", "piston"),
        to_say("the bore"),
        to_say("in a plated bore the piston is picked by grade to the bore it will run in"),
        bore_work_only=True,
    ),
    MeasuredFit(
        "rings",
        ("bore", "rings"),
        to_say("the bore or the ring gaps"),
        to_say("rings go with the piston and the bore they will run in"),
        bore_work_only=True,
    ),
)
"""Pistons and rings go to the plater with the cylinder, so they wait for the bore as it was measured here
and not for the one that comes back."""


@dataclass(frozen=True, slots=True)
class StandingReading:
    """A reading that stands: of which component, and when it was taken."""

    component: str
    when: When
    pk: int = 0


@dataclass(frozen=True, slots=True)
class Waits:
    """A part that can't be ordered yet."""

    component: str
    reading: str
    reason: str
    after_machining: bool

    def sentence(self, name: str) -> str:
        """Why, with the reading that it waits for."""
        first = f"{name[:1].upper()}{name[1:]}" if name else self.component
        places = {"first": first, "reason": say(self.reason), "reading": say(self.reading)}
        if self.after_machining:
            return say(
                "{first} can't be ordered yet: {reason}. Measure {reading} first, as measured when it is "
                "back from machine work.",
                **places,
            )
        return say("{first} can't be ordered yet: {reason}. Measure {reading} first.", **places)


def fit_of(component: str, *, plain_bearings: bool, machine_work: Collection[str]) -> MeasuredFit | None:
    """The rule that a part of this job is held to; None where it has one size."""
    for rule in MEASURED_FIT:
        if rule.component != component or (rule.plain_bearings and not plain_bearings):
            continue
        if not rule.bore_work_only or BORE_WORK & set(machine_work):
            return rule
    return None


def chosen_by(
    component: str,
    readings: Iterable[StandingReading],
    *,
    plain_bearings: bool,
    machine_work: Collection[str],
) -> StandingReading | Waits | None:
    """The last reading that decides its size, what it still waits for, or None where it has one size."""
    rule = fit_of(component, plain_bearings=plain_bearings, machine_work=machine_work)
    if rule is None:
        return None
    machined = bool(rule.machined_by & set(machine_work))
    good = [one for one in readings if one.component in rule.by and (one.when == "machined" or not machined)]
    return good[-1] if good else Waits(component, rule.reading, rule.reason, machined)
