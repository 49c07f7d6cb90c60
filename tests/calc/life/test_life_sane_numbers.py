"""The table of sane numbers: what an engine builder would nod at, worked out before the project began.

The formulas of DEVELOPERS.md with each component's own stopping share and the grade's strength counted,
before assembly faults and the duty factor; computed on the shipped data with a separate script. From memory
and common practice, no source: a check that the sums hang together, not that engines do.
"""

from __future__ import annotations

import math

import pytest

from quotes.calc.ask.request import Request
from quotes.calc.life.clock import used_shares
from quotes.calc.life.stretches import grade_in
from quotes.calc.scope.case import wear_at
from tests.calc.asked import tired_four, tired_single
from tests.cast import shipped

TIERS = ("refresh", "mild", "full")
TABLE = [
    (tired_four(amount=2000, duty="endurance"), (0.977, 0.972, 0.835), (0.797, 0.774, 0.479)),
    (tired_four(amount=1800, duty="sprint"), (0.971, 0.965, 0.795), (0.771, 0.745, 0.423)),
    (tired_four(amount=1050, duty="track_day"), (0.996, 0.995, 0.982), (0.927, 0.920, 0.829)),
    (tired_four(amount=75, duty="hill_climb"), (0.995, 0.994, 0.991), (0.961, 0.957, 0.940)),
    (tired_single(amount=25), (0.961, 0.953, 0.711), (0.781, 0.756, 0.383)),
    (tired_single(amount=15), (0.987, 0.985, 0.911), (0.881, 0.868, 0.663)),
]
WITHIN = 0.02


def chance(request: Request, tier: str, *, fresh: bool) -> float:
    """Chance of the planned service on a tune, everything new or everything as it came."""
    catalogue = shipped(request.engine.type)
    duty, tune = catalogue.duties[request.planned.duty], catalogue.tiers[tier]
    used = used_shares(request, catalogue)
    hazard = 0.0
    for code, component in catalogue.components.items():
        if component.service_item:
            continue
        share = 0.0 if fresh else used[code].share
        wear = wear_at(catalogue, request, code, share, grade=grade_in(tune, code), tune=tune, duty=duty)
        hazard += wear.stopping_hazard(float(request.planned.amount or 0))
    return math.exp(-hazard)


def test_fresh_engines_have_the_chances_a_builder_would_nod_at() -> None:
    for request, fresh, _ in TABLE:
        for tier, expected in zip(TIERS, fresh, strict=True):
            assert chance(request, tier, fresh=True) == pytest.approx(expected, abs=WITHIN), (request, tier)


def test_engines_left_as_they_came_have_the_chances_a_builder_would_fear() -> None:
    for request, _, left in TABLE:
        for tier, expected in zip(TIERS, left, strict=True):
            assert chance(request, tier, fresh=False) == pytest.approx(expected, abs=WITHIN), (request, tier)


def test_chances_fall_with_age_with_use_and_with_tune() -> None:
    for request, _, _ in TABLE:
        chances = [chance(request, tier, fresh=True) for tier in TIERS]
        assert chances == sorted(chances, reverse=True)
        assert all(chance(request, t, fresh=False) < chance(request, t, fresh=True) for t in TIERS)
    assert chance(tired_four(amount=2500), "mild", fresh=True) < chance(tired_four(), "mild", fresh=True)


@pytest.mark.parametrize(("mild_over_full_least", "most"), [(2.5, 5.0)])
def test_a_build_pushed_to_the_limit_lasts_a_fraction_of_the_mild_one(
    mild_over_full_least: float, most: float
) -> None:
    """Half a season where the mild one goes two years, in sprint use: common practice, no source."""
    request = tired_four(amount=1800, duty="sprint")
    catalogue = shipped("four600")
    duty = catalogue.duties["sprint"]
    lives = {
        tier: wear_at(
            catalogue,
            request,
            "valve_spring",
            0.0,
            grade="performance",
            tune=catalogue.tiers[tier],
            duty=duty,
        ).use_left()
        for tier in TIERS
    }
    assert mild_over_full_least <= lives["mild"] / lives["full"] <= most
