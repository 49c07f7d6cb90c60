"""The figures of a plan over the planned service: chance, rider safety, good for, what is due."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from quotes.calc.ask.request import Unit
from quotes.calc.life.draws import Draws, Fitted, band, chances, mean_chance
from quotes.calc.life.horizon import GoodFor, good_for, rider_wears, total_stopping
from quotes.calc.life.units import UNITS_OF_BASIS, event, per_basis, season
from quotes.calc.life.wear import Wear
from quotes.calc.scope.case import Case
from quotes.calc.sheet.values import Chance, Due, HazardShare, Opening, Service, WheelLock

TOP = 10
"""How many causes are named; the rest stand together."""
MOST_OPENINGS = 12


@dataclass(frozen=True)
class Measures:
    """A plan's figures. `fitted` is every component that counts, as it goes into the service."""

    case: Case
    fitted: Mapping[str, Fitted]
    chance: float
    """The mean chance of the planned service."""
    draws: Draws
    fault_hazard: float
    faults: int

    @property
    def wears(self) -> dict[str, Wear]:
        return {code: each.wear for code, each in self.fitted.items()}

    def stopping(self, use: float) -> float:
        """Stopping hazard over `use`, shop factor counted, assembly faults not."""
        return self.case.shop.shop_factor * total_stopping(self.wears, use)

    def good_for(self) -> GoodFor:
        case = self.case
        return good_for(self.wears, case.catalogue, case.shop, use=case.use, fault_hazard=self.fault_hazard)


def measure(case: Case, fitted: Mapping[str, Fitted], faults: int) -> Measures:
    """Draw the chances of a plan with so many assembly operations."""
    hazard = faults * case.shop.assembly_fault_chance
    factor = case.shop.shop_factor
    mean = mean_chance(fitted, case.use, shop_factor=factor, fault_hazard=hazard)
    drawn = chances(fitted, case.use, shop_factor=factor, fault_hazard=hazard)
    return Measures(case, fitted, mean, drawn, hazard, faults)


def planned_unit(case: Case) -> Unit:
    """The unit in which amounts of this case are said: as asked, else distances in the workshop's own."""
    planned, basis = case.request.planned, UNITS_OF_BASIS[case.duty.basis]
    if planned.unit is None and planned.amount is None and basis == "mi":
        return case.shop.distance_unit
    return planned.unit or basis


def in_planned_unit(case: Case, use: float) -> float:
    """An amount in the duty's basis unit, in the unit that was asked in."""
    return use / per_basis(planned_unit(case), case.duty)


def events_planned(case: Case) -> int:
    """How many meetings the planned service is."""
    if case.request.planned.events is not None:
        return case.request.planned.events
    return max(1, round(case.use / event(case.duty))) if event(case.duty) else 1


def chance_of(measures: Measures, target: float | None, *, met: bool, opening: float | None) -> Chance:
    """The chance as shown; per meeting from the mean hazards, our own faults spread over the meetings."""
    case = measures.case
    low, high = band(measures.draws)
    events = events_planned(case)
    each = case.use / events
    fault = measures.fault_hazard / events
    last = measures.stopping(case.use) - measures.stopping(case.use - each)
    return Chance(
        value=measures.chance,
        low=low,
        high=high,
        target=target,
        target_met=met,
        events=events,
        first_event=math.exp(-measures.stopping(each) - fault),
        last_event=math.exp(-last - fault),
        to_first_opening=opening,
    )


def wheel_lock_of(measures: Measures) -> WheelLock:
    """Chance over the planned service that a part which can lock the wheel or oil the tyre stops it."""
    case = measures.case
    riders = rider_wears(measures.wears, case.catalogue)
    value = 1.0 - math.exp(-case.shop.shop_factor * total_stopping(riders, case.use))
    ceiling = case.shop.rider_safety_ceiling
    return WheelLock(value=value, ceiling=ceiling, met=value <= ceiling + 1e-6)


def service(case: Case, use: float) -> Service:
    """An amount for the sheet."""
    return Service(amount=in_planned_unit(case, use), unit=planned_unit(case))


def openings(case: Case, bound: GoodFor) -> tuple[Opening, ...]:
    """When the engine must be opened inside the planned service, if what falls due then is renewed."""
    count = min(MOST_OPENINGS, math.ceil(case.use / bound.use) - 1) if 0 < bound.use < case.use else 0
    return tuple(
        Opening(
            amount=in_planned_unit(case, bound.use * number),
            unit=planned_unit(case),
            sentence=f"To be opened: {bound.reason}.",
        )
        for number in range(1, count + 1)
    )


def dues(case: Case, wears: Mapping[str, Wear]) -> list[Due]:
    """Every component with a planned life, the next one due first."""
    found = [_due(case, code, wear) for code, wear in wears.items() if _has_a_due(case, code)]
    return sorted(found, key=lambda due: (due.amount, due.component))


def _has_a_due(case: Case, code: str) -> bool:
    return case.catalogue.components[code].judged_by != "disturbed"


def _due(case: Case, code: str, wear: Wear) -> Due:
    left = wear.use_left()
    return Due(
        component=code,
        name=case.catalogue.components[code].name,
        amount=in_planned_unit(case, left),
        unit=planned_unit(case),
        seasons=left / season(case.duty),
    )


def stops_in_100(measures: Measures) -> dict[str, float]:
    """Engines in 100 that each component stops over the planned service; with faults they add up to all."""
    factor, use = measures.case.shop.shop_factor, measures.case.use
    hazards = {code: factor * each.wear.stopping_hazard(use) for code, each in measures.fitted.items()}
    whole = sum(hazards.values()) + measures.fault_hazard
    stopped = 100.0 * (1.0 - measures.chance)
    return {code: stopped * hazard / whole if whole else 0.0 for code, hazard in hazards.items()}


def where_the_chance_goes(
    measures: Measures, states: Mapping[str, str], stops: Mapping[str, float]
) -> tuple[HazardShare, ...]:
    """The components that stop most engines, our own faults, and all the rest together."""
    components = measures.case.catalogue.components
    ranked = sorted(stops, key=lambda code: (-stops[code], code))
    shares = [
        HazardShare(name=components[c].name, state=states.get(c, "left"), stops_in_100=stops[c])
        for c in ranked[:TOP]
    ]
    stopped = 100.0 * (1.0 - measures.chance)
    if measures.faults:
        own = max(0.0, stopped - sum(stops.values()))
        state = f"{measures.faults} operations"
        shares.append(HazardShare(name="Our own hands: faults in assembly", state=state, stops_in_100=own))
    rest = sum(stops[code] for code in ranked[TOP:])
    return (*shares, HazardShare(name="All else together", state="", stops_in_100=rest))
