"""Life used and left, as each way of building has it: the values that the picture draws."""

from __future__ import annotations

from functools import cache

import pytest

from quotes.calc.compare import compare
from quotes.calc.sheet.life_values import LifeBar
from quotes.calc.sheet.values import Comparison
from tests.calc.asked import asked, tired_four
from tests.calc.small import SHOP
from tests.cast import shipped


@cache
def worked() -> Comparison:
    return compare(tired_four(tiers=("refresh",)), shipped("four600"), SHOP)


def by_code(bars: tuple[LifeBar, ...]) -> dict[str, LifeBar]:
    return {bar.component: bar for bar in bars}


def test_what_is_renewed_starts_from_nothing() -> None:
    refresh = worked().options[0]
    bars = by_code(refresh.lives)
    for code in refresh.renewed:
        if code in bars:
            assert (bars[code].at_start, bars[code].fate) == (0.0, "renewed")


def test_what_is_left_starts_and_ends_where_its_risk_says() -> None:
    refresh = worked().options[0]
    bars = by_code(refresh.lives)
    for code, risk in (refresh.left | refresh.offered).items():
        assert bars[code].fate == "left"
        assert 100 * bars[code].at_start == pytest.approx(risk.used_pct)
        assert 100 * bars[code].at_end == pytest.approx(risk.used_pct_at_end)


def test_what_is_brought_back_has_some_of_its_life_again() -> None:
    refresh, leave = worked().options[0], by_code(worked().leave_it.lives)
    back = [bar for bar in refresh.lives if bar.fate == "reconditioned"]
    assert {bar.component for bar in back} == set(refresh.reconditioned) & set(leave)
    assert all(bar.at_start <= leave[bar.component].at_start for bar in back)


def test_the_next_to_run_out_stands_first() -> None:
    for lives in (worked().leave_it.lives, *(option.lives for option in worked().options)):
        left = [bar.services_left for bar in lives]
        assert left == sorted(left)
        assert len(left) > 20


def test_where_the_engine_is_opened_on_the_way_its_bars_end_there() -> None:
    """Left as it is nobody opens it."""
    planned = asked("single450", amount=70, unit="h", duty="motocross", tiers=("refresh",))
    season = compare(planned, shipped("single450"), SHOP)
    option, left = season.options[0], by_code(season.leave_it.lives)["piston"]
    assert option.season is not None
    first = option.season.services[0].length.amount
    assert by_code(option.lives)["piston"].at_end == pytest.approx(first / 30)
    assert left.at_end == pytest.approx(season.planned.amount / 30)


def test_an_age_that_was_guessed_or_measured_says_so() -> None:
    unknown = asked("four600", engine={"history": None}, tiers=("refresh",))
    left = compare(unknown, shipped("four600"), SHOP)
    assert not any(bar.known for bar in left.leave_it.lives)
    assert all(bar.known for bar in left.options[0].lives if bar.fate == "renewed")
    assert all(bar.known and not bar.measured for bar in worked().leave_it.lives)


def test_a_bar_past_its_end_has_no_service_left() -> None:
    past = LifeBar(component="ring", name="ring", at_start=1.2, at_end=1.5)
    half = past.model_copy(update={"at_start": 0.5, "at_end": 0.75})
    assert (past.services_left, half.services_left) == (0.0, 2.0)
