"""Engines run until something stops them, failure by failure, beside the chance that is worked out."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

import numpy as np
import pytest

from quotes.calc.life.draws import DUTY_SIGMA, Fitted, band, chances, mean_chance
from quotes.calc.scope.case import Case, make_case
from quotes.calc.sheet.measures import measure, stops_in_100
from tests.calc.asked import asked, ran
from tests.calc.small import SHOP
from tests.cast import shipped

ENGINES = 40_000
FOUR_DEVIATIONS = 4 * 0.5 / ENGINES**0.5
"""Of a share among so many engines, at most."""
FAULTS, FAULT = 20, SHOP.assembly_fault_chance
HANDS = "our own hands"


@cache
def case() -> Case:
    """A shipped four that came in at 3,000 sprint miles, for 2,000 endurance miles."""
    return make_case(asked("four600", ran(3000), amount=2000), shipped("four600"), SHOP, "refresh")


def came_in() -> dict[str, Fitted]:
    """All parts of it, each with its own age."""
    return {code: Fitted(wear, "kept") for code, wear in case().left_wears.items()}


def stopped_by(fitted: Mapping[str, Fitted], use: float, seed: int) -> list[str | None]:
    """What stopped each engine first within `use`; None where it came through.

    Each part of each engine is dealt a true rate of failing (gamma) and a stretch of damage until it stops
    (exponential over that rate); the season is as hard as it turns out (lognormal). Nothing of our hazards.
    """
    random = np.random.default_rng(seed)
    season = np.exp(DUTY_SIGMA * random.standard_normal(ENGINES))
    first = np.full(ENGINES, use)
    cause: np.ndarray = np.full(ENGINES, None)
    for code, part in fitted.items():
        wear = part.wear
        rate = wear.stopping * random.gamma(wear.evidence, 1.0 / wear.prior_scale, ENGINES)
        damage = random.exponential(size=ENGINES) / rate
        age = (wear.age**wear.shape + damage) ** (1.0 / wear.shape)
        stops = (age - wear.age) / (wear.rate * season)
        cause[stops < first] = code
        first = np.minimum(first, stops)
    ours = use * random.exponential(1.0 / (FAULTS * FAULT), ENGINES)
    cause[ours < first] = HANDS
    return list(cause)


def test_as_many_engines_come_through_as_was_said() -> None:
    found = stopped_by(came_in(), case().use, seed=1)
    through = found.count(None) / ENGINES
    said = mean_chance(came_in(), case().use, fault_hazard=FAULTS * FAULT)
    assert through == pytest.approx(said, abs=FOUR_DEVIATIONS)


def test_each_part_stops_as_many_as_its_share_says() -> None:
    """Shares go by mean hazards: the season's spread and who fails first move them by a tenth at most."""
    found = stopped_by(came_in(), case().use, seed=2)
    said = stops_in_100(measure(case(), came_in(), FAULTS))
    for code in sorted(said, key=lambda each: -said[each])[:8]:
        assert 100 * found.count(code) / ENGINES == pytest.approx(said[code], rel=0.1, abs=0.15)


@pytest.mark.parametrize("use", [500.0, 2000.0, 4000.0])
def test_the_band_holds_eight_in_ten_of_other_draws(use: float) -> None:
    """The same law with another generator and whole seasons drawn, not dealt in strata."""
    random = np.random.default_rng(3)
    season = np.exp(DUTY_SIGMA * random.standard_normal(ENGINES))
    hazard = np.full(ENGINES, FAULTS * FAULT)
    for part in came_in().values():
        wear = part.wear
        damage = (wear.age + wear.rate * use * season) ** wear.shape - wear.age**wear.shape
        hazard += wear.stopping * damage * random.gamma(wear.evidence, 1.0 / wear.prior_scale, ENGINES)
    low, high = band(chances(came_in(), use, fault_hazard=FAULTS * FAULT))
    assert (low, high) == pytest.approx(tuple(np.quantile(np.exp(-hazard), (0.1, 0.9))), abs=0.006)
