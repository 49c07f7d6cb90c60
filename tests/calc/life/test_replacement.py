"""The age at which a part is best renewed unfailed, and when there is none."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from quotes.calc.life.replacement import Law, cost_rate, replacement

LAW = Law(eta=1000.0, beta=2.5)
shapes = st.floats(1.2, 6.0)
dearer = st.floats(2.0, 50.0)


@pytest.mark.parametrize(("beta", "failed"), [(1.5, 40.0), (2.5, 5.0), (4.0, 3.0)])
def test_a_search_over_the_cost_itself_finds_the_same_age(beta: float, failed: float) -> None:
    """Oracle: the cost integrated numerically and searched, without the condition of its least."""

    def surviving(age: float) -> float:
        return math.exp(-((age / 700.0) ** beta))

    def cost(age: float) -> float:
        return (surviving(age) + failed * (1 - surviving(age))) / quad(surviving, 0.0, age)[0]

    searched = minimize_scalar(cost, bounds=(1.0, 1400.0), method="bounded", options={"xatol": 1e-4})
    found = replacement(Law(700.0, beta), 1.0, failed)
    assert found.age == pytest.approx(searched.x, rel=1e-4)
    assert found.cost_rate == pytest.approx(searched.fun, rel=1e-9)


@given(beta=st.floats(0.3, 1.0), failed=dearer)
def test_what_does_not_wear_is_never_renewed_for_its_age(beta: float, failed: float) -> None:
    found = replacement(Law(1000.0, beta), 1.0, failed)
    assert (found.age, found.never, found.saves) == (None, "does not wear", 0.0)


@given(beta=shapes, failed=st.floats(0.1, 1.0))
def test_what_costs_no_more_failed_is_never_renewed_for_its_age(beta: float, failed: float) -> None:
    found = replacement(Law(1000.0, beta), 1.0, failed)
    assert (found.age, found.never) == (None, "costs no more")


@given(beta=shapes, failed=dearer)
def test_a_dearer_failure_is_forestalled_earlier(beta: float, failed: float) -> None:
    cheap = replacement(Law(1000.0, beta), 1.0, failed).age or math.inf
    dear = replacement(Law(1000.0, beta), 1.0, 2.0 * failed).age or math.inf
    assert dear < cheap or dear == cheap == math.inf


@given(beta=shapes, failed=dearer, unit=st.floats(0.01, 100.0), coin=st.floats(0.01, 100.0))
def test_neither_the_unit_nor_the_currency_matters(
    beta: float, failed: float, unit: float, coin: float
) -> None:
    one = replacement(Law(1000.0, beta), 1.0, failed)
    other = replacement(Law(1000.0 * unit, beta), coin, failed * coin)
    assert (one.age is None) == (other.age is None)
    if one.age and other.age:
        assert other.age / unit == pytest.approx(one.age, rel=1e-6)
        assert other.cost_rate * unit / coin == pytest.approx(one.cost_rate, rel=1e-6)


@given(beta=shapes, failed=dearer, other=st.floats(0.05, 2.0))
def test_no_other_age_costs_less(beta: float, failed: float, other: float) -> None:
    law = Law(1000.0, beta)
    found = replacement(law, 1.0, failed)
    slack = 1e-9 if found.age else 1e-2
    assert found.cost_rate <= cost_rate(law, 1000.0 * other, 1.0, failed) * (1.0 + slack)


def test_no_age_is_named_that_hardly_any_part_comes_to() -> None:
    found = replacement(LAW, planned=100.0, failed=101.0)
    assert (found.age, found.never) == (None, "hardly any last")


def test_costs_and_lives_are_above_nothing() -> None:
    with pytest.raises(ValueError, match="costs are 0 and 5"):
        replacement(LAW, 0.0, 5.0)
    with pytest.raises(ValueError, match="eta is 0"):
        Law(0.0, 2.0)


def test_an_age_that_one_in_twenty_comes_to_is_named() -> None:
    found = replacement(LAW, planned=1.0, failed=1.3)
    assert found.age is not None
    assert 0.001 < LAW.surviving(found.age) < 0.05
