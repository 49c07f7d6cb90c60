"""The numbers of the probability plot."""

from __future__ import annotations

import math

import pytest

from quotes.calc.learning.plot import across, plotting_positions, probability_plot, upright
from quotes.calc.life.life_data import LifeData

BEARING = LifeData(failures=(30, 49, 82, 90, 96), suspensions=(10, 45, 100))


def test_positions_are_those_of_the_handbook() -> None:
    """Abernethy, New Weibull Handbook, chapter 2: adjusted ranks 1.125, 2.4375, 3.75, 5.0625, 6.375 of eight.

    From memory; Bernard's median ranks of them.
    """
    shares = [point.share_failed for point in plotting_positions(BEARING)]

    assert shares == pytest.approx([0.0982, 0.2545, 0.4107, 0.5670, 0.7232], abs=5e-5)


def test_without_survivors_the_ranks_are_one_two_three() -> None:
    points = plotting_positions(LifeData(failures=(300, 100, 200)))

    assert [point.age for point in points] == [100, 200, 300]
    assert [point.share_failed for point in points] == pytest.approx([0.7 / 3.4, 1.7 / 3.4, 2.7 / 3.4])


def test_what_came_under_observation_late_raises_no_rank_before() -> None:
    """The first failure has one at risk beside it, not two: its share is higher."""
    late = plotting_positions(LifeData(failures=(100,), suspensions=(300, 300), entries=(0, 0, 200)))
    new = plotting_positions(LifeData(failures=(100,), suspensions=(300, 300)))

    assert late[0].share_failed > new[0].share_failed


def test_one_found_past_its_limit_stands_half_way_and_keeps_both_ages() -> None:
    (point,) = plotting_positions(LifeData(intervals=((0, 400),), suspensions=(500,)))

    assert (point.age, point.kind, point.seen_good_at, point.found_at) == (200, "past_limit", 0, 400)


def test_a_law_is_a_straight_line_through_its_characteristic_life_and_stays_inside_the_axes() -> None:
    plot = probability_plot(BEARING, [("catalogue", "catalogue", 94.0, 2.14)], "miles")
    (line,) = plot.lines
    (left, low), (right, high) = line.ends

    rise = (upright(high) - upright(low)) / (across(right) - across(left))
    assert rise == pytest.approx(2.14)
    assert upright(low) == pytest.approx(2.14 * math.log(left / 94.0))
    assert plot.ages[0] <= left < right <= plot.ages[1]
    assert plot.shares[0] <= low * (1 + 1e-9)
    assert high <= plot.shares[1] * (1 + 1e-9)
    assert all(plot.ages[0] <= mark <= plot.ages[1] for mark in plot.age_marks)
    assert len(plot.age_marks) >= 3


def test_survivors_alone_leave_the_catalogues_law_to_be_seen() -> None:
    plot = probability_plot(LifeData(suspensions=(4000.0,)), [("catalogue", "", 9528.0, 3.0)], "miles")

    assert plot.points == ()
    assert plot.survivors == (4000.0,)
    assert len(plot.lines) == 1
