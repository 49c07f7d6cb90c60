"""The width of the model: chances with loads reckoned otherwise, of the same service."""

from __future__ import annotations

from dataclasses import replace

import pytest

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.life.clock import grade_in
from quotes.calc.life.draws import Fitted, mean_chance
from quotes.calc.scope.case import wear_at
from quotes.calc.tune.loads import Loads, loads_of
from quotes.calc.tune.width import WAYS, Running, Served, chances_otherwise
from tests.calc.asked import tired_four
from tests.cast import shipped

MILES = 2000.0
FULL = shipped("four600").tiers["full"]


def all_new(catalogue: EngineCatalogue) -> dict[str, Fitted]:
    """A 600 four built new to full power, as the sums of an option see it."""
    duty, request = catalogue.duties["endurance"], tired_four()
    return {
        code: Fitted(
            wear_at(catalogue, request, code, 0.0, grade=grade_in(FULL, code), tune=FULL, duty=duty), "new"
        )
        for code, component in catalogue.components.items()
        if not component.service_item
    }


def running(catalogue: EngineCatalogue, loads: Loads | None = None) -> Running:
    duty, standard = catalogue.duties["endurance"], catalogue.tiers["refresh"]
    return Running(catalogue, duty, FULL, standard, loads or loads_of(catalogue.engine_type, FULL))


def test_reckoned_as_it_is_it_comes_to_the_option_s_own_chance() -> None:
    catalogue = shipped("four600")
    fitted, served = all_new(catalogue), Served(MILES, 1.2, 0.01)
    own = mean_chance(fitted, MILES, shop_factor=1.2, fault_hazard=0.01)
    assert chances_otherwise(fitted, running(catalogue), served)["value"] == pytest.approx(own, abs=1e-12)


@pytest.mark.parametrize(("name", "by"), [("strength_less", -0.05), ("strength_more", 0.05)])
def test_strengths_a_little_off_come_to_what_the_whole_sums_make_of_them(name: str, by: float) -> None:
    catalogue = shipped("four600")
    found = chances_otherwise(all_new(catalogue), running(catalogue), Served(MILES))
    strengths = {code: strength + by for code, strength in catalogue.grade_strength.items()}
    off = all_new(replace(catalogue, grade_strength=strengths))
    assert found[name] == pytest.approx(mean_chance(off, MILES), abs=1e-12)


@pytest.mark.parametrize(("name", "by"), [("exponent_less", -1.0), ("exponent_more", 1.0)])
def test_another_exponent_moves_the_trade_s_factor_by_the_load(name: str, by: float) -> None:
    catalogue = shipped("four600")
    now = running(catalogue)
    found = chances_otherwise(all_new(catalogue), now, Served(MILES))
    laws = {cause: replace(law, exponent=law.exponent + by) for cause, law in catalogue.load_laws.items()}
    moved = {
        **FULL.life_factors,
        "inertia": 0.25 * now.loads.inertia**-by,
        "gas": 0.55 * now.loads.gas**-by,
    }
    duty, other = catalogue.duties["endurance"], replace(catalogue, load_laws=laws)
    tune, request = replace(FULL, life_factors=moved), tired_four()
    off = {
        code: replace(
            part, wear=wear_at(other, request, code, 0.0, grade=grade_in(FULL, code), tune=tune, duty=duty)
        )
        for code, part in all_new(catalogue).items()
    }
    assert found[name] == pytest.approx(mean_chance(off, MILES), abs=1e-12)


def test_weaker_parts_and_a_steeper_law_never_help() -> None:
    found = chances_otherwise(all_new(shipped("four600")), running(shipped("four600")), Served(MILES))
    assert set(found) == {"value", *WAYS}
    assert found["strength_less"] < found["value"] < found["strength_more"]
    assert found["exponent_more"] < found["value"] < found["exponent_less"]


def test_the_standard_tune_has_no_width() -> None:
    catalogue = shipped("four600")
    standard = catalogue.tiers["refresh"]
    duty, request = catalogue.duties["endurance"], tired_four()
    fitted = {
        code: Fitted(wear_at(catalogue, request, code, 0.0, grade="stock", tune=standard, duty=duty), "new")
        for code in ("rod_bolt", "valve_spring", "piston")
    }
    as_it_is = Running(catalogue, duty, standard, standard, Loads(1.0, 1.0))
    assert len(set(chances_otherwise(fitted, as_it_is, Served(MILES)).values())) == 1


def test_parts_left_from_another_tune_keep_the_grade_that_they_came_in() -> None:
    catalogue = shipped("four600")
    kept = {"rod_bolt": replace(all_new(catalogue)["rod_bolt"], article="kept")}
    found = chances_otherwise(kept, running(catalogue), Served(MILES))
    assert found["strength_less"] == found["value"]
