"""The ladder, for every tier of several engines."""

from __future__ import annotations

from itertools import pairwise

import pytest

from quotes.calc.ask.request import Request
from quotes.calc.scope.case import make_case
from quotes.calc.scope.decide import Scope, decide
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.ladder import LEAST_GAIN, MOST_STEPS, ladder
from quotes.calc.sheet.values import LadderStep
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
        assert higher.chance - lower.chance >= LEAST_GAIN - 1e-9


def test_there_are_never_more_than_twelve_and_the_option_is_one_of_them(
    climbed: tuple[Scope, tuple[LadderStep, ...]],
) -> None:
    steps = climbed[1]
    assert 1 <= len(steps) <= MOST_STEPS
    assert [step.is_option for step in steps].count(True) == 1
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))


def test_no_step_leaves_out_a_must(climbed: tuple[Scope, tuple[LadderStep, ...]]) -> None:
    scope, steps = climbed
    musts = {code for kind, code in scope.musts.nodes if kind == "new"}
    assert musts <= set(steps[0].adds)


def test_steps_are_nested_each_adds_what_was_not_there(
    climbed: tuple[Scope, tuple[LadderStep, ...]],
) -> None:
    seen: set[str] = set()
    for step in climbed[1]:
        fresh = set(step.adds) - climbed[0].plan.reconditioned
        assert not (fresh & seen) or not step.adds
        seen |= fresh
