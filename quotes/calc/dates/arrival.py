"""The chance that parts and machine work are there by a working day.

A lead time is lognormal: its typical figure is the median, its slow figure the 90 % point. Each supplier's
shipment is one variable, as slow as its slowest part, and shipments are independent. Days are working days
from the order on, and may be fractions.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from catalogue.calc.engine import LeadTime, MachineWork, Part

Days = NDArray[np.float64]
SLOW_CHANCE = 0.9
"""The slow figure of a lead time is met nine times in ten."""
SLOW_DEVIATIONS = NormalDist().inv_cdf(SLOW_CHANCE)
SLICES = 64
"""Slices of equal chance that the arrival of awaited parts is cut into; half a per cent is then right."""
AT_ONCE = 0.1
"""Working days of a typical lead of 0, where the slow one is more: a lognormal can't have the median 0."""
NO_SPREAD = 1.000001
"""A slow lead no further above the typical one than this has no spread that a number could hold."""
TINY = 1e-9
"""Stands for a day that is past, where only its logarithm is wanted."""
FAR = 10_000.0
"""Working days that no shipment takes: forty years."""
STEP = 1 / 128
"""Days are found to the next multiple of this, so that a higher chance never gives an earlier day."""


@dataclass(frozen=True, slots=True)
class Sent:
    """One shipment to an outside shop and back: its lead, and the suppliers whose parts it waits for."""

    lead: LeadTime
    awaits: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class PartsSentAlong:
    """A machine work that can begin only with certain new parts in hand."""

    machine_work: str
    components: frozenset[str]
    reason: str


PARTS_SENT_ALONG = (
    PartsSentAlong("replate", frozenset({"piston"}), "the plater hones to the new piston"),
    PartsSentAlong("bore_hone", frozenset({"piston"}), "the bore is honed to the new piston"),
    PartsSentAlong("plateau_hone", frozenset({"piston"}), "the bore is honed to the new piston"),
    PartsSentAlong(
        "seat_cut", frozenset({"valve_intake", "valve_exhaust"}), "seats are cut to the new valves"
    ),
    PartsSentAlong("guide_renew", frozenset({"valve_guide"}), "the guides are fitted there"),
    PartsSentAlong("seat_insert", frozenset({"valve_seat"}), "the inserts are fitted there"),
    PartsSentAlong("crank_rebuild", frozenset({"con_rod"}), "the rod kit is pressed in there"),
    PartsSentAlong(
        "crank_balance", frozenset({"piston", "piston_pin", "con_rod"}), "balanced with the parts that move"
    ),
)
"""Common practice, no source: the piston goes with the cylinder, new valves and guides with the head."""


def chance_by(days: float, lead: LeadTime) -> float:
    """Chance that a shipment of this lead time is there by a day. In stock (0 days) it is there at once."""
    if lead.slow_days <= lead.typical_days * NO_SPREAD:
        return 1.0 if days >= lead.typical_days else 0.0
    if days <= 0:
        return 0.0
    typical = max(lead.typical_days, AT_ONCE)
    spread = math.log(max(lead.slow_days, 2 * AT_ONCE) / typical)
    deviations = math.log(days / typical) / spread
    return 0.5 * math.erfc(-deviations * SLOW_DEVIATIONS / math.sqrt(2))


def slowest(leads: Iterable[LeadTime]) -> LeadTime:
    """The lead of a shipment: no faster than any of its parts, typically and at its slow end."""
    leads = tuple(leads)
    return LeadTime(
        max((lead.typical_days for lead in leads), default=0.0),
        max((lead.slow_days for lead in leads), default=0.0),
    )


def shipments_of(parts: Iterable[Part]) -> dict[str, LeadTime]:
    """One shipment for each supplier of these parts."""
    by_supplier: dict[str, list[LeadTime]] = {}
    for part in parts:
        by_supplier.setdefault(part.supplier, []).append(part.lead)
    return {supplier: slowest(leads) for supplier, leads in by_supplier.items()}


def sent_out(machine_work: Iterable[MachineWork], parts: Iterable[Part]) -> dict[str, Sent]:
    """One shipment for each outside shop, with the suppliers of the new parts that must go along."""
    supplier_of = {part.component: part.supplier for part in parts}
    sent: dict[str, Sent] = {}
    for work in machine_work:
        before = sent.get(work.vendor, Sent(LeadTime(0.0, 0.0)))
        along = {code for one in PARTS_SENT_ALONG if one.machine_work == work.code for code in one.components}
        awaits = frozenset(supplier_of[code] for code in along & supplier_of.keys())
        sent[work.vendor] = Sent(slowest((before.lead, work.lead)), before.awaits | awaits)
    return sent


class Arrival:
    """When all shipments of a job are there. `stripped` is the working day on which the engine is in pieces.

    Machine work leaves when the engine is stripped, or, where it waits for parts, when the last of all parts
    that any of it waits for is in.
    """

    def __init__(self, shipments: Mapping[str, LeadTime], sent: Iterable[Sent], stripped: float) -> None:
        sent = tuple(sent)
        awaited = frozenset().union(*(one.awaits for one in sent)) & shipments.keys()
        self.stripped = stripped
        self._waiting = [one.lead for one in sent if one.awaits & awaited]
        self._at_once = [one.lead for one in sent if not one.awaits & awaited]
        self._parts = [lead for supplier, lead in shipments.items() if supplier not in awaited]
        self._starts = self._start_days([shipments[supplier] for supplier in sorted(awaited)])

    def _start_days(self, awaited: list[LeadTime]) -> Days:
        """Days on which the waiting machine work may leave, each as likely as the other."""
        if not awaited:
            return np.empty(0)
        chances = (np.arange(SLICES) + 0.5) / SLICES
        return np.maximum(_first_days(chances, awaited), self.stripped)

    def chance(self, days: float) -> float:
        """Chance that everything is there by a working day: the product of the shipments' chances."""
        chance = _all_by(days, self._parts) * _all_by(days - self.stripped, self._at_once)
        if self._starts.size:
            chance *= float(_all_by_each(days - self._starts, self._waiting).mean())
        return chance

    def day(self, chance: float) -> float:
        """The first day by which everything is there with this chance. ValueError unless 0 < chance < 1."""
        if not 0 < chance < 1:
            raise ValueError(f"a chance lies between 0 and 1, not at {chance}")
        return _first_day(chance, self.chance)


def _all_by(days: float, leads: Iterable[LeadTime]) -> float:
    return math.prod(chance_by(days, lead) for lead in leads)


def _all_by_each(days: Days, leads: Iterable[LeadTime]) -> Days:
    """The same for many days at once."""
    chances = np.ones_like(days)
    for lead in leads:
        chances *= _chances_by(days, lead)
    return chances


def _chances_by(days: Days, lead: LeadTime) -> Days:
    """`chance_by` of many days."""
    from scipy.special import ndtr  # slow to import: only where it is used

    if lead.slow_days <= lead.typical_days * NO_SPREAD:
        return np.asarray(days >= lead.typical_days, dtype=np.float64)
    typical = max(lead.typical_days, AT_ONCE)
    spread = math.log(max(lead.slow_days, 2 * AT_ONCE) / typical)
    deviations = np.log(np.maximum(days, TINY) / typical) / spread
    return np.where(days > 0, ndtr(deviations * SLOW_DEVIATIONS), 0.0)


def _first_days(chances: Days, leads: list[LeadTime]) -> Days:
    """`_first_day` for many chances of the same shipments."""
    low, high = np.zeros_like(chances), np.ones_like(chances)
    while (short := (_all_by_each(high, leads) < chances) & (high < FAR)).any():
        low, high = np.where(short, high, low), np.where(short, 2 * high, high)
    while ((high - low) > STEP).any():
        middle = (low + high) / 2
        reached = _all_by_each(middle, leads) >= chances
        wide = (high - low) > STEP
        low, high = np.where(wide & ~reached, middle, low), np.where(wide & reached, middle, high)
    return np.where(_all_by_each(np.zeros_like(chances), leads) >= chances, 0.0, high)


def _first_day(chance: float, by: Callable[[float], float]) -> float:
    """The first multiple of STEP on which a rising chance is reached."""
    if by(0.0) >= chance:
        return 0.0
    low, high = 0.0, 1.0
    while by(high) < chance and high < FAR:
        low, high = high, high * 2
    while high - low > STEP:
        middle = (low + high) / 2
        low, high = (low, middle) if by(middle) >= chance else (middle, high)
    return high
