"""Life used and left, component by component, for the picture of one way of building."""

from __future__ import annotations

from collections.abc import Mapping

from quotes.calc.scope.case import Case
from quotes.calc.scope.plan import Plan
from quotes.calc.sheet.life_values import Fate, LifeBar
from quotes.calc.sheet.measures import Measures


def life_bars(measures: Measures, fates: Mapping[str, Fate], use: float) -> tuple[LifeBar, ...]:
    """Every component with a planned life, the one nearest its end first.

    `fates` names those that do not stay as they are; `use` is what they run for before they are seen again.
    """
    bars = [
        _bar(measures, code, fates.get(code, "left"), use)
        for code in measures.fitted
        if _has_a_life(measures.case, code)
    ]
    return tuple(sorted(bars, key=nearest_end))


def fates_of(plan: Plan) -> dict[str, Fate]:
    """What becomes of the components that a plan touches."""
    back: dict[str, Fate] = dict.fromkeys(plan.reconditioned, "reconditioned")
    return back | dict.fromkeys(plan.new, "renewed")


def nearest_end(bar: LifeBar) -> tuple[float, float, str]:
    """Sorts by what runs out first; of those that have run out, the furthest past first."""
    return bar.services_left, -bar.at_end, bar.component


def _has_a_life(case: Case, code: str) -> bool:
    return case.catalogue.components[code].judged_by != "disturbed"


def _bar(measures: Measures, code: str, fate: Fate, use: float) -> LifeBar:
    case, wear = measures.case, measures.fitted[code].wear
    used = case.used[code]
    return LifeBar(
        component=code,
        name=case.catalogue.components[code].name,
        at_start=wear.age / wear.life,
        at_end=(wear.age + wear.rate * use) / wear.life,
        fate=fate,
        known=used.known or fate == "renewed",
        measured=used.measured and fate != "renewed",
    )
