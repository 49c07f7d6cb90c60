"""The width of the model: chances with loads reckoned otherwise, of the same service."""

from __future__ import annotations

from dataclasses import replace

import pytest

from catalogue.calc.engine import EngineCatalogue, Tier
from quotes.calc.life.course import Article, Course
from quotes.calc.life.stretches import grade_in
from quotes.calc.scope.case import wear_at
from quotes.calc.tune.loads import Loads, loads_of
from quotes.calc.tune.width import WAYS, Running, chances_otherwise
from tests.calc.asked import tired_four
from tests.cast import shipped

MILES = 2000.0
FULL = shipped("four600").tiers["full"]


def all_new(catalogue: EngineCatalogue, tune: Tier = FULL) -> tuple[Article, ...]:
    """A 600 four with every part new, as the sums of an option see it."""
    duty, request = catalogue.duties["endurance"], tired_four()
    return tuple(
        Article(
            code,
            1,
            wear_at(catalogue, request, code, 0.0, grade=grade_in(tune, code), tune=tune, duty=duty),
            begins=0,
            ends=1,
        )
        for code, component in catalogue.components.items()
        if not component.service_item
    )


def once(articles: tuple[Article, ...]) -> Course:
    """One service of 2,000 endurance miles."""
    return Course((MILES,), (0.0,), articles, 1.0)


def mean(articles: tuple[Article, ...]) -> float:
    return once(articles).means()[-1]


def running(catalogue: EngineCatalogue) -> Running:
    duty, standard = catalogue.duties["endurance"], catalogue.tiers["refresh"]
    return Running(catalogue, duty, FULL, standard, loads_of(catalogue.engine_type, FULL))


def test_reckoned_as_it_is_it_comes_to_the_option_s_own_chance() -> None:
    """Over a season with an opening: a part renewed on the way, one put right, our own faults."""
    new = all_new(shipped("four600"))
    first, second, *rest = (replace(each, ends=2) for each in new)
    articles = (
        replace(first, ends=1),
        replace(first, number=2, begins=1),
        replace(second, set_back={1: 200.0}),
        *rest,
    )
    course = Course((900.0, 1100.0), (0.01, 0.004), articles, 1.2)
    found = chances_otherwise(course, running(shipped("four600")))
    assert found["value"] == pytest.approx(course.means()[-1], abs=1e-12)


@pytest.mark.parametrize(("name", "by"), [("strength_less", -0.05), ("strength_more", 0.05)])
def test_strengths_a_little_off_come_to_what_the_whole_sums_make_of_them(name: str, by: float) -> None:
    catalogue = shipped("four600")
    found = chances_otherwise(once(all_new(catalogue)), running(catalogue))
    strengths = {code: strength + by for code, strength in catalogue.grade_strength.items()}
    off = all_new(replace(catalogue, grade_strength=strengths))
    assert found[name] == pytest.approx(mean(off), abs=1e-12)


@pytest.mark.parametrize(("name", "by"), [("exponent_less", -1.0), ("exponent_more", 1.0)])
def test_another_exponent_moves_the_trade_s_factor_by_the_load(name: str, by: float) -> None:
    catalogue = shipped("four600")
    now = running(catalogue)
    found = chances_otherwise(once(all_new(catalogue)), now)
    laws = {cause: replace(law, exponent=law.exponent + by) for cause, law in catalogue.load_laws.items()}
    moved = {
        **FULL.life_factors,
        "inertia": 0.25 * now.loads.inertia**-by,
        "gas": 0.55 * now.loads.gas**-by,
    }
    off = all_new(replace(catalogue, load_laws=laws), replace(FULL, life_factors=moved))
    assert found[name] == pytest.approx(mean(off), abs=1e-12)


def test_weaker_parts_and_a_steeper_law_never_help() -> None:
    found = chances_otherwise(once(all_new(shipped("four600"))), running(shipped("four600")))
    assert set(found) == {"value", *WAYS}
    assert found["strength_less"] < found["value"] < found["strength_more"]
    assert found["exponent_more"] < found["value"] < found["exponent_less"]


def test_the_standard_tune_has_no_width() -> None:
    catalogue = shipped("four600")
    standard = catalogue.tiers["refresh"]
    as_it_is = Running(catalogue, catalogue.duties["endurance"], standard, standard, Loads(1.0, 1.0))
    found = chances_otherwise(once(all_new(catalogue, standard)), as_it_is)
    assert len(set(found.values())) == 1


def test_parts_left_from_another_tune_keep_the_grade_that_they_came_in() -> None:
    catalogue = shipped("four600")
    kept = tuple(replace(each, number=0) for each in all_new(catalogue) if each.code == "rod_bolt")
    found = chances_otherwise(once(kept), running(catalogue))
    assert found["strength_less"] == found["value"]
