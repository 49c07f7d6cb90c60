"""Geometry's factors beside the trade's: how far they may differ, and that it is said why."""

from __future__ import annotations

from dataclasses import replace

import pytest

from catalogue.calc.engine import DRIVERS, Duty
from quotes.calc.life.stretches import grade_in
from quotes.calc.life.units import season
from quotes.calc.scope.case import wear_at
from quotes.calc.tune.beside_trade import FURTHEST_APART, FactorsBeside, beside_trade, filling_ratio
from tests.calc.asked import asked
from tests.cast import shipped

TYPES = ("single450", "twin650", "four600", "four1000")
TIERS = ("refresh", "mild", "full")


def beside(engine_type: str, tier: str) -> dict[str, FactorsBeside]:
    catalogue = shipped(engine_type)
    found = beside_trade(catalogue.engine_type, catalogue.tiers[tier], catalogue.load_laws)
    return {one.cause: one for one in found}


@pytest.mark.parametrize("tier", TIERS)
@pytest.mark.parametrize("engine_type", TYPES)
def test_the_trade_s_factors_lie_within_a_quarter_of_geometry_s(engine_type: str, tier: str) -> None:
    """A quarter: the trade says round figures, and one power of load moves geometry's by up to a sixth."""
    for cause in ("inertia", "gas"):
        found = beside(engine_type, tier)[cause]
        assert found.apart is not None
        assert abs(found.apart) <= FURTHEST_APART == 0.25
        assert not found.doubtful


def test_a_quarter_of_the_life_at_seven_per_cent_more_revs_is_the_tenth_power_of_load() -> None:
    found = beside("four600", "full")["inertia"]
    assert found.less is not None
    assert found.more is not None
    assert found.from_geometry == pytest.approx(0.258, abs=0.001)
    assert found.more < found.trade < found.less
    assert found.note == "The same figure, as the trade rounds."


def test_where_they_differ_it_is_said_why() -> None:
    assert "seldom" in beside("four600", "mild")["inertia"].note
    assert "fill the cylinder better, by about 8 % here" in beside("four600", "full")["gas"].note
    assert beside("four600", "refresh")["gas"].note == "The same tune: nothing is lost."


def test_for_heat_shifts_starts_dirt_and_age_geometry_has_no_figure() -> None:
    found = beside("single450", "full")
    assert list(found) == list(DRIVERS)
    for cause in ("heat", "shifts", "launches", "dirt", "time"):
        assert found[cause].from_geometry is None
        assert "the trade's stands" in found[cause].note


def test_a_tier_pushed_past_what_is_known_has_a_sentence_and_no_number() -> None:
    catalogue = shipped("four600")
    wild = replace(catalogue.tiers["full"], rev_limit_delta_pct=20.0)
    found = beside_trade(catalogue.engine_type, wild, catalogue.load_laws)[0]
    assert (found.cause, found.from_geometry, found.apart) == ("inertia", None, None)
    assert "1.44 of the standard, above what is known" in found.note


def test_the_cylinder_of_the_standard_tune_is_filled_as_standard() -> None:
    catalogue = shipped("four600")
    assert filling_ratio(catalogue.engine_type, catalogue.tiers["refresh"]) == pytest.approx(1.0)
    assert filling_ratio(catalogue.engine_type, catalogue.tiers["full"]) == pytest.approx(1.16 / 1.07)


def new_engine(engine_type: str, duty: Duty) -> list[float]:
    """Stopping hazard of an all-new engine over a season of the duty, tier by tier."""
    catalogue = shipped(engine_type)
    request = asked(engine_type, amount=None, unit=None, duty=duty.code)
    return [
        sum(
            wear_at(
                catalogue, request, code, 0.0, grade=grade_in(tune, code), tune=tune, duty=duty
            ).stopping_hazard(season(duty))
            for code, component in catalogue.components.items()
            if not component.service_item
        )
        for tune in (catalogue.tiers[tier] for tier in TIERS)
    ]


@pytest.mark.parametrize("engine_type", TYPES)
def test_more_tune_lasts_less_in_every_duty(engine_type: str) -> None:
    """Common practice, no source: everything new at the start, the same season, more tune stops more."""
    suits = [
        duty
        for duty in shipped(engine_type).duties.values()
        if all(duty.basis in component.lives for component in shipped(engine_type).components.values())
    ]
    assert len(suits) >= 5
    for duty in suits:
        refresh, mild, full = new_engine(engine_type, duty)
        assert refresh < mild < full
