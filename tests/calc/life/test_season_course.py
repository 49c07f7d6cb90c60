"""The chance of a season: adds up however it is cut, and agrees with engines that are run to their end."""

from __future__ import annotations

import dataclasses
import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.life.course import AS_PLANNED, Article, Course
from quotes.calc.life.draws import Fitted, chances, duty_factors, mean_chance
from quotes.calc.life.wear import Wear

SAMPLES = 200_000
RODS = Wear(age=0.0, rate=1.1, eta=9000.0, shape=3.0, evidence=2.0, stopping=0.6, life=6000.0)
PISTON = Wear(age=2500.0, rate=0.9, eta=7000.0, shape=2.5, evidence=2.0, stopping=0.25, life=4000.0)


def new(wear: Wear) -> Wear:
    return dataclasses.replace(wear, age=0.0)


def two_pistons_one_rod(uses: tuple[float, ...], faults: tuple[float, ...] = (0.0, 0.0, 0.0)) -> Course:
    """Three services: the rods stay, the piston that came in is renewed at the first opening."""
    return Course(
        uses=uses,
        faults=faults,
        articles=(
            Article("con_rod", 1, RODS, begins=0, ends=3),
            Article("piston", 0, PISTON, begins=0, ends=1),
            Article("piston", 1, new(PISTON), begins=1, ends=3),
        ),
        shop_factor=1.0,
    )


WEARS = st.builds(
    Wear,
    age=st.floats(0.0, 8000.0),
    rate=st.floats(0.3, 4.0),
    eta=st.floats(2000.0, 20_000.0),
    shape=st.floats(1.0, 4.0),
    evidence=st.floats(0.5, 20.0),
    stopping=st.floats(0.01, 1.0),
    life=st.just(5000.0),
)


@given(wear=WEARS, use=st.floats(10.0, 3000.0), at=st.lists(st.floats(0.05, 0.95), min_size=1, max_size=4))
def test_a_part_that_stays_adds_the_same_hazard_however_its_service_is_split(
    wear: Wear, use: float, at: list[float]
) -> None:
    ends = [0.0, *sorted(at), 1.0]
    uses = tuple(use * (after - before) for before, after in pairwise(ends))
    whole = Course((use,), (0.0,), (Article("rings", 0, wear, 0, 1),), 1.0)
    split = Course(uses, (0.0,) * len(uses), (Article("rings", 0, wear, 0, len(uses)),), 1.0)
    for factors in (AS_PLANNED, duty_factors()):
        assert split.means(factors)[-1] == pytest.approx(whole.means(factors)[-1], abs=1e-12)
    assert split.hazards(split.articles[0]).sum() == pytest.approx(
        whole.hazards(whole.articles[0]).sum(), abs=1e-12
    )


def test_one_build_run_through_is_the_chance_of_every_option() -> None:
    fitted = {"con_rod": Fitted(RODS, "new"), "piston": Fitted(PISTON, "kept")}
    articles = tuple(Article(code, each.number, each.wear, 0, 1) for code, each in fitted.items())
    course = Course((1800.0,), (0.01,), articles, 1.3)
    assert course.means()[-1] == pytest.approx(
        mean_chance(fitted, 1800.0, shop_factor=1.3, fault_hazard=0.01), abs=1e-14
    )
    drawn = np.exp(-course.drawn()[1].sum(axis=0))
    assert drawn == pytest.approx(chances(fitted, 1800.0, shop_factor=1.3, fault_hazard=0.01), abs=1e-14)


def test_the_chance_of_the_season_is_the_product_of_its_services() -> None:
    means = two_pistons_one_rod((900.0, 900.0, 700.0), (0.01, 0.004, 0.004)).means()
    each = [after / before for before, after in pairwise((1.0, *means))]
    assert math.prod(each) == pytest.approx(means[-1], abs=1e-15)
    assert each[2] < each[1], "with the same parts, older"


def test_the_draws_of_a_season_tend_to_its_mean() -> None:
    course = two_pistons_one_rod((1500.0, 1500.0, 1500.0), (0.01, 0.004, 0.004))
    drawn = np.exp(-course.drawn()[1].sum(axis=0))
    assert drawn.mean() == pytest.approx(course.means()[-1], abs=0.003)


def test_a_part_kept_in_two_seasons_is_the_same_part_in_both() -> None:
    """Draw by draw: what is renewed on the way changes nothing else."""
    kept = two_pistons_one_rod((900.0, 900.0, 700.0))
    again = Course(
        kept.uses,
        kept.faults,
        (
            *kept.articles[:2],
            dataclasses.replace(kept.articles[2], ends=2),
            Article("piston", 2, new(PISTON), 2, 3),
        ),
        1.0,
    )
    one, other = (course.drawn({"con_rod"})[0] for course in (kept, again))
    assert (one == other).all()
    before = [course.drawn({"con_rod"})[1][:2] for course in (kept, again)]
    assert (before[0] == before[1]).all()


def test_a_reconditioned_part_goes_on_with_the_age_that_it_was_given_back() -> None:
    stays = Course((900.0, 900.0), (0.0, 0.0), (Article("seat", 0, PISTON, 0, 2),), 1.0)
    mended = Course((900.0, 900.0), (0.0, 0.0), (Article("seat", 0, PISTON, 0, 2, {1: 400.0}),), 1.0)
    first, second = mended.hazards(mended.articles[0])
    assert first == pytest.approx(stays.hazards(stays.articles[0])[0])
    assert second < stays.hazards(stays.articles[0])[1] / 2


def test_engines_run_to_their_end_finish_the_season_as_often_as_is_shown() -> None:
    """Monte Carlo: lives drawn one by one, a fresh one at each renewal, the season's hardness common."""
    course = two_pistons_one_rod((1500.0, 1500.0, 1500.0))
    random = np.random.default_rng(7)
    hardness = random.choice(duty_factors(), SAMPLES)
    runs = np.ones(SAMPLES, dtype=bool)
    for article in course.articles:
        wear, use = article.wear, sum(course.uses[article.begins : article.ends])
        theta = random.gamma(wear.evidence, 1.0 / wear.prior_scale, SAMPLES)
        stops_at = stopping_age(random, theta * wear.stopping, wear)
        runs &= stops_at > wear.age + wear.rate * use * hardness
    spread = math.sqrt(runs.mean() * (1.0 - runs.mean()) / SAMPLES)
    assert course.means()[-1] == pytest.approx(runs.mean(), abs=4 * spread)
    assert 0.5 < runs.mean() < 0.9


def stopping_age(random: np.random.Generator, rate: np.ndarray, wear: Wear) -> np.ndarray:
    """The age at which an article stops the engine, given that it has not by its age when it begins."""
    left = random.exponential(1.0, rate.size) / rate
    return np.asarray((wear.age**wear.shape + left) ** (1.0 / wear.shape))
