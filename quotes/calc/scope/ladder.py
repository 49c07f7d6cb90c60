"""The ladder: nested steps from the least that may be done to the safest, through the option quoted.

Each step takes what buys most chance for its money, with everything that it brings. Steps of under half a
per cent are merged, and there are never more than twelve.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.said import say
from quotes.calc.scope.bands import Bands
from quotes.calc.scope.climb import LEAST_GAIN, Climb
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.plan import Plan
from quotes.calc.sheet.chance_values import LadderStep

MOST_STEPS = 12


@dataclass(frozen=True, slots=True)
class Rung:
    """A plan on the way up, with the chance over the scope's span and the price with tax."""

    plan: Plan
    chance: float
    gross: Decimal
    is_option: bool


def ladder(scope: Scope) -> tuple[LadderStep, ...]:
    """The steps of one option; the first is the least that may be sold, the last the safest."""
    return _steps(scope, rungs(scope))


def rungs(scope: Scope) -> list[Rung]:
    """The plans of its steps."""
    climb = Climb(scope)
    least = climb.least()
    below = [plan for plan in climb.up_to(least, climb.of_option) if _nested(plan, scope.plan)]
    above = climb.up_to(scope.plan, climb.of_all)
    return _thinned(
        [_rung(scope, plan) for plan in (least, *below)],
        _rung(scope, scope.plan, is_option=True),
        [_rung(scope, plan) for plan in above],
    )


def _rung(scope: Scope, plan: Plan, *, is_option: bool = False) -> Rung:
    return Rung(plan, scope.strata.chance(plan), scope.pricing.gross(plan), is_option)


def _nested(plan: Plan, in_: Plan) -> bool:
    return plan.new <= in_.new and plan.reconditioned <= in_.new | in_.reconditioned


def _thinned(below: list[Rung], option: Rung, above: list[Rung]) -> list[Rung]:
    """Rungs joined, thinned to strictly better ones and to twelve at the most."""
    rungs = [*_worth_a_step(below, option), option]
    for rung in above:
        if rung.chance >= rungs[-1].chance + LEAST_GAIN and rung.gross > rungs[-1].gross:
            rungs.append(rung)
    while len(rungs) > MOST_STEPS:
        rungs.pop(_least_missed(rungs))
    return rungs


def _steps(scope: Scope, rungs: list[Rung]) -> tuple[LadderStep, ...]:
    bands = Bands(scope.case, scope.span)
    steps: list[LadderStep] = []
    for number, rung in enumerate(rungs, start=1):
        before = rungs[number - 2] if number > 1 else None
        adds = _added(rung.plan, before.plan if before else None)
        low, high = bands.of(rung.plan)
        steps.append(
            LadderStep(
                number=number,
                adds=adds,
                names=tuple(rung.plan.catalogue.components[code].name for code in adds),
                more=rung.gross - before.gross if before else rung.gross,
                gross=rung.gross,
                chance=rung.chance,
                is_option=rung.is_option,
                low=low,
                high=high,
                bought=_bought(rung.chance - before.chance) if before else "",
            )
        )
    return tuple(steps)


def _bought(gain: float) -> str:
    """Half a per cent at least, as so many in a hundred."""
    if gain < 0.0095:
        return say("under 1 in 100")
    return say("about {count} in {out_of}", count=f"{100 * gain:.0f}", out_of=100)


def _worth_a_step(below: list[Rung], option: Rung) -> list[Rung]:
    kept: list[Rung] = []
    for rung in below:
        if rung.gross >= option.gross or rung.chance > option.chance - LEAST_GAIN:
            continue
        if not kept or rung.chance >= kept[-1].chance + LEAST_GAIN:
            kept.append(rung)
    return kept


def _least_missed(rungs: list[Rung]) -> int:
    """The step whose loss blurs the ladder least; the option, the first and the last stay."""
    inner = [n for n in range(1, len(rungs) - 1) if not rungs[n].is_option]
    return min(inner, key=lambda n: rungs[n].chance - rungs[n - 1].chance)


def _added(plan: Plan, before: Plan | None) -> tuple[str, ...]:
    old = (before.new | before.reconditioned) if before else frozenset()
    fresh = (plan.new | plan.reconditioned) - old
    return tuple(code for code in plan.catalogue.components if code in fresh)
