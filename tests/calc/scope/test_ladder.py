"""The ladder, for every tier of several engines."""

from __future__ import annotations

from itertools import pairwise

import pytest

from quotes.calc.ask.request import Request
from quotes.calc.life.draws import band, chances
from quotes.calc.scope.case import make_case
from quotes.calc.scope.climb import Climb
from quotes.calc.scope.decide import Scope, decide
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.hazards import rider_hazard
from quotes.calc.scope.ladder import ladder
from quotes.calc.scope.search import rider_ceiling
from quotes.calc.sheet.chance_values import LadderStep
from tests.calc.asked import asked, ran, tired_four, tired_single
from tests.calc.small import SHOP
from tests.cast import shipped

ENGINES = [
    tired_four(),
    tired_four(target="0.85"),
    tired_single(),
    asked("twin650", ran(6000, duty="track_day"), amount=1050, duty="track_day"),
    asked("four1000", engine={"history": None}, amount=None, unit=None, duty="drag"),
]


@pytest.fixture(
    params=[(r, t) for r in ENGINES for t in ("refresh", "mild", "full")], ids=str, scope="module"
)
def climbed(request: pytest.FixtureRequest) -> tuple[Scope, tuple[LadderStep, ...]]:
    asked_for: tuple[Request, str] = request.param
    scope = decide(grounds_of(make_case(asked_for[0], shipped(asked_for[0].engine.type), SHOP, asked_for[1])))
    return scope, ladder(scope)


def test_more_money_never_buys_a_lower_chance(climbed: tuple[Scope, tuple[LadderStep, ...]]) -> None:
    for lower, higher in pairwise(climbed[1]):
        assert higher.gross > lower.gross
        assert higher.chance > lower.chance
        assert higher.more == higher.gross - lower.gross


def test_no_step_is_worth_less_than_half_a_per_cent(climbed: tuple[Scope, tuple[LadderStep, ...]]) -> None:
    for lower, higher in pairwise(climbed[1]):
        assert higher.chance - lower.chance >= 0.005 - 1e-9


def test_there_are_never_more_than_twelve_and_the_option_is_one_of_them(
    climbed: tuple[Scope, tuple[LadderStep, ...]],
) -> None:
    steps = climbed[1]
    assert 1 <= len(steps) <= 12
    assert [step.is_option for step in steps].count(True) == 1
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))


def test_no_step_leaves_out_a_must(climbed: tuple[Scope, tuple[LadderStep, ...]]) -> None:
    scope, steps = climbed
    musts = {code for kind, code in scope.musts.nodes if kind == "new"}
    assert musts <= set(steps[0].adds)


def test_no_step_is_over_the_rider_safety_ceiling_where_the_option_is_not(
    climbed: tuple[Scope, tuple[LadderStep, ...]],
) -> None:
    scope, _ = climbed
    ceiling, least = rider_ceiling(scope.case).at_most, Climb(scope).least()
    assert rider_hazard(scope.case, scope.plan, scope.case.leg) <= ceiling
    assert rider_hazard(scope.case, least, scope.case.leg) <= ceiling


def test_steps_are_nested_each_adds_what_was_not_there(
    climbed: tuple[Scope, tuple[LadderStep, ...]],
) -> None:
    seen: set[str] = set()
    for step in climbed[1]:
        assert not set(step.adds) & seen
        seen |= set(step.adds)


def test_the_step_of_the_option_has_its_price_and_its_chance(
    climbed: tuple[Scope, tuple[LadderStep, ...]],
) -> None:
    scope, steps = climbed
    (own,) = [step for step in steps if step.is_option]
    assert own.gross == scope.pricing.totals(scope.plan).gross.typical
    assert own.chance == pytest.approx(scope.reached, abs=1e-12)


def test_the_band_of_a_step_is_that_of_its_draws(climbed: tuple[Scope, tuple[LadderStep, ...]]) -> None:
    """Only what changes from step to step is drawn; the option's is the same as if all were drawn at once."""
    scope, steps = climbed
    (own,) = [step for step in steps if step.is_option]
    drawn = chances(
        scope.plan.fitted(scope.case),
        scope.span,
        shop_factor=SHOP.shop_factor,
        fault_hazard=scope.plan.faults * SHOP.assembly_fault_chance,
    )
    assert (own.low, own.high) == pytest.approx(band(drawn), abs=1e-12)
    assert all(step.low < step.chance < step.high for step in steps if step.low and step.high)


def test_what_a_step_buys_is_said_in_whole_hundredths(
    climbed: tuple[Scope, tuple[LadderStep, ...]],
) -> None:
    steps = climbed[1]
    assert steps[0].bought == ""
    for lower, higher in pairwise(steps):
        gain = round(100 * (higher.chance - lower.chance))
        assert higher.bought in {"under 1 in 100", f"about {gain} in 100"}
