"""Stopping hazards on the three levels of every component, as the programme weighs them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quotes.calc.life.draws import mean_chance
from quotes.calc.scope.case import Case
from quotes.calc.scope.plan import Plan


@dataclass(frozen=True, slots=True)
class Hazards:
    """Stopping hazard of one component over the span looked at, left, reconditioned and new."""

    left: float
    done: float | None
    new: float


def hazards(case: Case, use: float, *, riders_only: bool = False) -> dict[str, Hazards]:
    """Stopping hazards of every component over `use`, in a season as hard as planned."""
    factor = case.shop.shop_factor
    found: dict[str, Hazards] = {}
    for code, levels in sorted(case.levels.items()):
        if riders_only and not case.catalogue.components[code].locks_wheel_or_oils_tyre:
            continue
        back = levels.reconditioned
        found[code] = Hazards(
            left=levels.left.stopping_hazard(use) * factor,
            done=back.stopping_hazard(use) * factor if back is not None else None,
            new=levels.new.stopping_hazard(use) * factor,
        )
    return found


def plan_hazard(of: Mapping[str, Hazards], plan: Plan) -> float:
    """The hazards of all these components after a plan; assembly faults are not among them."""
    total = 0.0
    for code, each in of.items():
        if code in plan.new:
            total += each.new
        elif code in plan.reconditioned and each.done is not None:
            total += each.done
        else:
            total += each.left
    return total


def rider_hazard(case: Case, plan: Plan, use: float) -> float:
    """Stopping hazard of the parts that can lock the wheel or oil the tyre, after a plan."""
    fitted = case.fitted_levels
    riders = (fitted[code][plan.level(code)].wear for code in case.riders)
    return case.shop.shop_factor * sum(wear.stopping_hazard(use) for wear in riders)


def shown_chance(case: Case, plan: Plan, use: float) -> float:
    """The mean chance of a plan over `use`, as it is shown."""
    fault_hazard = plan.faults * case.shop.assembly_fault_chance
    return mean_chance(plan.fitted(case), use, shop_factor=case.shop.shop_factor, fault_hazard=fault_hazard)
