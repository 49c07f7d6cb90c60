"""Rows of evidence as data: what counts, from when, and in which unit."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.ask.request import EngineAsked, Segment
from quotes.calc.learning.law import law_of
from quotes.calc.learning.proposal import About, propose
from quotes.calc.learning.ran import reference_ages
from quotes.calc.learning.reference import NoReference, wear_per_unit
from quotes.calc.learning.seen import counting, life_data
from quotes.calc.life.life_data import refuse_faults
from tests.calc.learning.cast import ON, failed, seen, sound
from tests.cast import shipped

FOUR = shipped("four600")


def test_every_kind_of_row_becomes_data_that_can_be_fitted() -> None:
    rows = [
        *failed(3000),
        *sound(4000),
        seen(5000, "past_limit", entry=1000.0, seen_good=2000.0),
        seen(6000, "past_limit"),
        seen(7000, put_aside="withdrawn"),
    ]
    data = life_data(rows)

    refuse_faults(data)
    assert (data.failures, data.suspensions) == ((3000,), (4000,))
    assert data.intervals == ((2000, 5000), (0, 6000))
    assert data.entries == (0, 0, 1000, 0)


@pytest.mark.parametrize(
    ("left", "outcome", "change", "fault"),
    [
        (0, "sound", {}, "it had not run"),
        (4000, "sound", {"entry": 4000.0}, "it had run nothing since it was last seen"),
        (4000, "failed", {"entry": 4000.0}, "it had run nothing since it was last seen"),
        (4000, "past_limit", {"seen_good": 4000.0}, "it had run nothing since it was last seen good"),
        (4000, "past_limit", {"entry": 3000.0}, ""),
    ],
)
def test_ages_that_say_nothing_are_named(
    left: float, outcome: str, change: dict[str, float], fault: str
) -> None:
    assert seen(left, outcome, **change).fault == fault


def test_what_is_put_aside_does_not_count() -> None:
    assert counting([seen(4000), seen(5000, put_aside="withdrawn")]) == (seen(4000),)


def test_a_mile_of_each_duty_counts_by_how_hard_it_is_on_the_part() -> None:
    """Endurance starts seldom and shifts less: 0.8 x 0.3 + 0.15 x 0.9 + 0.05 x 1.3 of a sprint mile."""
    clutch = FOUR.components["clutch_friction"]

    assert wear_per_unit(clutch, "mi", "sprint", "refresh", FOUR) == pytest.approx(1)
    assert wear_per_unit(clutch, "mi", "endurance", "refresh", FOUR) == pytest.approx(0.44)
    assert wear_per_unit(clutch, "km", "sprint", "refresh", FOUR) == pytest.approx(1 / 1.609344)


@pytest.mark.parametrize(
    ("unit", "duty", "tier", "why"),
    [
        ("mi", "moon", "refresh", "no duty moon"),
        ("mi", "sprint", "wild", "no tune wild"),
        ("mi", "motocross", "refresh", "can't be converted"),
    ],
)
def test_an_age_that_says_nothing_of_the_part_is_refused(unit: str, duty: str, tier: str, why: str) -> None:
    with pytest.raises(NoReference, match=why):
        wear_per_unit(FOUR.components["clutch_friction"], unit, duty, tier, FOUR)  # type: ignore[arg-type]


def test_a_mixed_past_is_added_up_stretch_by_stretch() -> None:
    ran = (
        Segment(amount=Decimal(1000), unit="mi", duty="sprint"),
        Segment(amount=Decimal(2000), unit="mi", duty="endurance"),
    )
    ages = reference_ages(EngineAsked(type="four600", history=ran), FOUR, ON)

    assert ages["clutch_friction"] == pytest.approx(1000 + 2000 * 0.44)


def test_a_race_clutch_that_comes_out_sound_at_4000_miles_moves_its_life_up() -> None:
    """Driven with a quick-shifter, which spares it every shift. Common practice, no source."""
    clutch = FOUR.components["clutch_friction"]
    per_mile = wear_per_unit(clutch, "mi", "sprint", "refresh", FOUR)
    law = law_of(clutch, "miles", FOUR.life_quantile["miles"])
    made = propose(
        About("clutch_friction", clutch.name, "miles"),
        [seen(4000 * per_mile)],
        catalogue=law,
        before=law,
    )

    assert made is not None
    assert made.after.life > law.life
    assert (made.counts.sound, made.after.evidence) == (1, law.evidence)
