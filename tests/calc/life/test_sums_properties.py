"""What must be true of the chances of a whole engine, whatever its age, its season and what is renewed."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.life.draws import Fitted, mean_chance
from quotes.calc.life.horizon import total_stopping
from quotes.calc.life.wear import Wear, age_of_peak_hazard, wear_rate
from quotes.calc.scope.case import Case, make_case
from tests.calc.asked import asked, ran
from tests.calc.small import SHOP
from tests.cast import shipped

TYPES = ("single450", "twin650", "four600", "four1000")
SEASONS = {"miles": ("mi", "sprint", 1000.0), "hours_mx": ("h", "motocross", 20.0)}
"""Unit, reference duty and a part of a season, by the basis of lives."""


@cache
def engine(engine_type: str, used: float, tier: str = "refresh") -> Case:
    """An engine that has run so many times a part of a season in its reference duty, for one more."""
    unit, duty, amount = SEASONS["hours_mx" if engine_type == "single450" else "miles"]
    past = (ran(round(used * amount, 3), unit, duty),) if used else ()
    request = asked(engine_type, *past, amount=amount, unit=unit, duty=duty)
    return make_case(request, shipped(engine_type), SHOP, tier)


def kept(wears: Mapping[str, Wear]) -> dict[str, Fitted]:
    return {code: Fitted(wear, "kept") for code, wear in wears.items()}


def any_hazard(wears: Mapping[str, Wear], use: float) -> float:
    """Cumulative hazard of any failure at all, as if each stopped the engine."""
    return sum(replace(wear, stopping=1.0).stopping_hazard(use) for wear in wears.values())


types = st.sampled_from(TYPES)
ages = st.sampled_from((0.0, 0.5, 1.0, 2.0, 4.0, 8.0))


@settings(max_examples=25, deadline=None)
@given(types, ages, st.lists(st.floats(0.05, 1.0), min_size=2, max_size=6))
def test_the_hazards_of_an_engine_add_up_over_the_parts_of_a_season(
    engine_type: str, used: float, parts: list[float]
) -> None:
    """Of any failure exactly. Of stopping a little less: each part begins with articles known to be sound."""
    case = engine(engine_type, used)
    wears, any_failure, stops = dict(case.left_wears), 0.0, 0.0
    for part in parts:
        use = case.use * part / sum(parts)
        any_failure += any_hazard(wears, use)
        stops += total_stopping(wears, use)
        wears = {code: replace(wear, age=wear.age + wear.rate * use) for code, wear in wears.items()}
    whole = any_hazard(case.left_wears, case.use)
    assert any_failure == pytest.approx(whole, rel=0, abs=1e-12)
    assert 0.9 * total_stopping(case.left_wears, case.use) < stops
    assert stops <= total_stopping(case.left_wears, case.use) + 1e-12


@settings(max_examples=40, deadline=None)
@given(types, ages, st.data())
def test_renewing_never_lowers_the_chance_but_for_our_own_faults(
    engine_type: str, used: float, data: st.DataObject
) -> None:
    """But for what does not wear: a part of shape 1 that has run is only the better known."""
    case = engine(engine_type, used)
    codes = sorted(code for code, level in case.levels.items() if level.left.shape > 1)
    first, then = (frozenset(data.draw(st.lists(st.sampled_from(codes), max_size=12))) for _ in range(2))

    def chance(new: frozenset[str]) -> float:
        fitted = {
            c: Fitted(level.new, "new") if c in new else Fitted(level.left, "kept")
            for c, level in case.levels.items()
        }
        return mean_chance(fitted, case.use)

    assert chance(first | then) >= chance(first) - 1e-12


@pytest.mark.parametrize("engine_type", TYPES)
def test_an_older_engine_comes_through_less_often_up_to_where_its_parts_are_known(engine_type: str) -> None:
    """Beyond the age at which a part's hazard is highest it counts as that old, and says so."""
    cases = [engine(engine_type, float(seasons)) for seasons in range(8)]
    chances = [mean_chance(kept(case.left_wears), case.use) for case in cases]
    assert chances == sorted(chances, reverse=True)
    assert len(set(chances)) == len(chances)
    ancient, older = engine(engine_type, 500.0), engine(engine_type, 1_000.0)
    wearing = {code: level for code, level in ancient.levels.items() if level.left.shape > 1}
    assert len(wearing) > len(ancient.levels) / 2
    for code, level in wearing.items():
        left = level.left
        assert level.beyond_known
        assert left.age == pytest.approx(age_of_peak_hazard(left.eta, left.shape, left.evidence))
        assert older.levels[code].left == left


@pytest.mark.parametrize("engine_type", TYPES)
@pytest.mark.parametrize("tier", ["refresh", "mild", "full"])
def test_a_tune_that_is_fitted_already_changes_no_rate(engine_type: str, tier: str) -> None:
    """Factor 1: the engine is judged on what it has, and the same tier asked again adds nothing."""
    unit, duty, amount = SEASONS["hours_mx" if engine_type == "single450" else "miles"]
    request = asked(engine_type, ran(amount, unit, duty, tier), amount=amount, unit=unit, duty=duty)
    again = make_case(request, shipped(engine_type), SHOP, tier)
    plain = make_case(request, shipped(engine_type), SHOP, "refresh")
    assert not again.adds_tune
    assert again.left_wears == plain.left_wears


@pytest.mark.parametrize("engine_type", TYPES)
def test_the_standard_tune_in_the_reference_duty_wears_one_for_one(engine_type: str) -> None:
    catalogue = shipped(engine_type)
    duty = catalogue.duties["motocross" if engine_type == "single450" else "sprint"]
    for component in catalogue.components.values():
        if duty.basis in component.lives:
            rate = wear_rate(component, duty, catalogue.tiers["refresh"], 1.0, catalogue.load_laws)
            assert math.isclose(rate, 1.0)
