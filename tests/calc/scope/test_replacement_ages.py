"""The ages at which components are best renewed, worked out with the prices of a workshop."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import pytest

from catalogue.calc.engine import EngineCatalogue, Life
from quotes.calc.life.replacement import Law, replacement
from quotes.calc.life.wear import characteristic_life
from quotes.calc.scope.replacement_ages import ReplacementAge, replacement_ages
from quotes.calc.shop import Shop
from tests.calc.asked import ON
from tests.calc.small import SHOP, catalogue, component, operation, part, shop, tier
from tests.cast import shipped

LIFE = {"miles": Life(1000.0, 800.0, 1500.0)}


def small(**changes: object) -> EngineCatalogue:
    """A spring behind two hours of opening and half an hour of fitting, and a piston that it can wreck."""
    spring = component(
        "spring",
        lives=LIFE,
        judged_by="life",
        stopping_share=0.5,
        access_operations=("open",),
        with_operations=("fit",),
        **{"consequence_class": "engine", "companions_on_damage": ("piston",), **changes},
    )
    small = catalogue(
        spring,
        component("piston", lives=LIFE, judged_by="disturbed"),
        operation("open", hours=Decimal(2)),
        operation("fit", hours=Decimal("0.5"), kind="assemble"),
        part("spring"),
        part("piston", cost=Decimal(80), list_price=Decimal(100)),
        tier(),
    )
    duty = next(iter(shipped("four600").duties.values()))
    return replace(small, duties={duty.code: duty}, life_quantile={"miles": 0.1})


def spring(rules: Shop = SHOP, **changes: object) -> ReplacementAge:
    (found,) = replacement_ages(small(**changes), rules, "miles", ON)
    return found


def four(rules: Shop = SHOP) -> dict[str, ReplacementAge]:
    return {one.component: one for one in replacement_ages(shipped("four600"), rules, "miles", ON)}


def test_what_renewing_costs_is_parts_and_labour_with_tax() -> None:
    """Hand: 10.00 and 6.75 % tax on the part; 2.5 h at 110, untaxed; opening is 2 h of it."""
    assert spring().costs.alone == Decimal("285.68")
    assert spring().costs.while_open == Decimal("65.68")


def test_a_failure_that_wrecks_the_engine_costs_what_it_wrecks_and_the_weekend() -> None:
    """Hand: a piston of 100.00 with 6.75 % tax; half of the failures come without warning."""
    costs = spring(shop(weekend_loss=Decimal(800))).costs
    assert (costs.wrecked, costs.lost) == (Decimal("106.75"), Decimal(800))
    assert costs.failed(0.5) == pytest.approx(285.68 + 0.5 * 906.75, abs=0.01)


@pytest.mark.parametrize(("consequence", "lost"), [("weekend", 800), ("session", 150)])
def test_any_other_failure_costs_the_weekend_or_the_session(consequence: str, lost: int) -> None:
    costs = spring(consequence_class=consequence).costs
    assert (costs.wrecked, costs.lost) == (Decimal(0), Decimal(lost))


def test_the_age_is_that_of_the_plain_life_and_these_costs() -> None:
    found = spring()
    law = Law(characteristic_life(1000.0, 0.1, 2.5), 2.5)
    assert found.alone == replacement(law, 285.68, found.costs.failed(0.5))
    assert found.while_open == replacement(law, 65.68, found.costs.failed(0.5))
    assert found.band(500.0) == (400.0, 750.0)


def test_with_the_engine_open_nothing_is_left_longer_than_by_itself() -> None:
    for one in four().values():
        if one.alone.age and one.while_open:
            assert (one.while_open.age or math.inf) < one.alone.age, one.component


def test_a_dearer_weekend_has_parts_renewed_earlier() -> None:
    cheap, dear = four(shop(weekend_loss=Decimal(400))), four(shop(weekend_loss=Decimal(4000)))
    for code in ("valve_spring", "con_rod", "selector"):
        assert (dear[code].share_open or 0) < (cheap[code].share_open or 0)


def test_what_is_renewed_when_disturbed_and_what_is_changed_by_itself_have_no_age() -> None:
    components = shipped("four600").components
    assert not {c for c in four() if components[c].service_item or components[c].judged_by == "disturbed"}
    assert {"engine_oil", "head_gasket"}.isdisjoint(four())


def test_rod_bolts_come_new_whenever_they_are_reached() -> None:
    bolts = four()["rod_bolt"]
    assert (bolts.while_open, bolts.share_open) == (None, None)


def test_what_does_not_wear_is_never_renewed_for_its_age() -> None:
    assert four()["cover"].alone.never == "does not wear"
