"""What must be true of any fit of life data."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.life.bounds import likelihood_bounds
from quotes.calc.life.fit import fit
from quotes.calc.life.life_data import LifeData
from quotes.calc.life.likelihood import ages_of, log_likelihood
from quotes.calc.life.one_parameter import fit_eta

ages = st.floats(1, 10_000)


@st.composite
def shop_data(draw: st.DrawFn, *, truncated: bool = True) -> LifeData:
    """A handful of items, of which one outlived the first failure, so that there is a fit."""
    failures = draw(st.lists(ages, min_size=2, max_size=5))
    suspensions = [*draw(st.lists(ages, max_size=4)), 1.2 * max(failures)]
    looked_at = draw(st.lists(st.tuples(ages, st.floats(1.05, 3.0)), max_size=2))
    data = LifeData(
        failures=tuple(failures),
        suspensions=tuple(suspensions),
        intervals=tuple((low, low * times) for low, times in looked_at),
    )
    if not truncated or draw(st.booleans()):
        return data
    parts = draw(st.lists(st.floats(0, 0.5), min_size=len(data.last_good) - 1, max_size=len(data.last_good)))
    entries = [left * part for left, part in zip(data.last_good, parts, strict=False)]
    entries += [0.0] * (len(data.last_good) - len(entries))
    return data.model_copy(update={"entries": (0.0, *entries[1:])})


def times(data: LifeData, factor: float) -> LifeData:
    return LifeData(
        failures=tuple(factor * age for age in data.failures),
        suspensions=tuple(factor * age for age in data.suspensions),
        intervals=tuple((factor * low, factor * high) for low, high in data.intervals),
        entries=tuple(factor * age for age in data.entries),
    )


@settings(max_examples=20, deadline=None)
@given(shop_data(), st.floats(0.01, 1000))
def test_another_unit_changes_the_life_and_nothing_else(data: LifeData, factor: float) -> None:
    plain, scaled = fit(data), fit(times(data, factor))
    assert scaled.beta == pytest.approx(plain.beta, rel=1e-5)
    assert scaled.eta == pytest.approx(factor * plain.eta, rel=1e-5)
    moved = len(data.failures) * math.log(factor)
    assert scaled.log_likelihood == pytest.approx(plain.log_likelihood - moved, abs=1e-6)


@settings(max_examples=20, deadline=None)
@given(shop_data())
def test_the_known_shape_gives_back_the_fit_of_its_own_shape(data: LifeData) -> None:
    fitted = fit(data)
    one = fit_eta(data, fitted.beta, 0.9)
    assert one.eta == pytest.approx(fitted.eta, rel=1e-9)
    assert one.log_likelihood == pytest.approx(fitted.log_likelihood, abs=1e-9)


@settings(max_examples=20, deadline=None)
@given(shop_data(), st.floats(-0.3, 0.3), st.floats(-0.3, 0.3))
def test_nothing_near_the_fit_is_likelier(data: LifeData, shape: float, life: float) -> None:
    fitted, prepared = fit(data), ages_of(data)
    beta, eta = fitted.beta * math.exp(shape), fitted.eta * math.exp(life)
    near = log_likelihood(prepared, beta, -beta * math.log(eta / prepared.scale))
    assert near <= fitted.log_likelihood + 1e-9


@settings(max_examples=30, deadline=None)
@given(shop_data(), ages, st.floats(0.5, 6.0))
def test_one_more_survivor_never_shortens_the_life_of_a_known_shape(
    data: LifeData, age: float, beta: float
) -> None:
    """With the shape free an early one can, by a hair: it makes the shape steeper."""
    plain = data.model_copy(update={"entries": ()})
    more = plain.model_copy(update={"suspensions": (*data.suspensions, age)})
    before, after = fit_eta(plain, beta, 0.9), fit_eta(more, beta, 0.9)
    assert (after.eta or 0) >= (before.eta or 0) * (1 - 1e-9)
    assert after.eta_low >= before.eta_low * (1 - 1e-9)


@settings(max_examples=5, deadline=None)
@given(shop_data())
def test_bounds_hold_the_fit_and_widen_with_confidence(data: LifeData) -> None:
    fitted = fit(data)
    close, wide = (likelihood_bounds(data, fitted, confidence) for confidence in (0.5, 0.9))
    beta_low, beta_high = close.beta_low or 0.0, close.beta_high or math.inf
    assert (wide.beta_low or 0.0) <= beta_low < fitted.beta < beta_high <= (wide.beta_high or math.inf)
    eta_low, eta_high = close.eta_low or 0.0, close.eta_high or math.inf
    assert (wide.eta_low or 0.0) <= eta_low < fitted.eta < eta_high <= (wide.eta_high or math.inf)
