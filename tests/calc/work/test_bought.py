"""What of a job's parts must be bought."""

from __future__ import annotations

from dataclasses import replace

from quotes.calc.work.bought import to_buy
from tests.calc.small import ENGINE_TYPE, catalogue, component, part

GASKETS = catalogue(
    component("head_gasket"),
    component("cover_gasket", count=2),
    component("gasket_kit_bottom"),
    part("cover_gasket", quantity=2),
)


def test_no_more_is_bought_than_a_full_set() -> None:
    assert to_buy(GASKETS, [], {"cover_gasket": 2}) == {"cover_gasket": 2}
    assert to_buy(GASKETS, [], {"cover_gasket": 3}) == {"cover_gasket": 2}


def test_cover_gaskets_come_in_the_bottom_end_kit() -> None:
    taken = {"cover_gasket": 2, "gasket_kit_bottom": None}

    assert to_buy(GASKETS, [], taken) == {"gasket_kit_bottom": None}


def test_what_is_renewed_is_bought_as_a_full_set_whatever_the_operations_take() -> None:
    assert to_buy(GASKETS, ["cover_gasket"], {"cover_gasket": 1}) == {"cover_gasket": None}


def test_what_is_part_of_the_article_bought_is_not_bought_beside_it() -> None:
    shop = catalogue(component("con_rod", comes_with=("small_end_bush",)), component("small_end_bush"))

    assert to_buy(shop, ["con_rod", "small_end_bush"], {}) == {"con_rod": None}


def test_bores_in_the_case_are_bought_with_the_case_once() -> None:
    integral = catalogue(
        component("bore"), component("crankcase"), engine_type=replace(ENGINE_TYPE, block="integral")
    )
    separate = catalogue(component("bore"), component("crankcase"))

    assert to_buy(integral, ["bore", "crankcase"], {}) == {"crankcase": None}
    assert to_buy(separate, ["bore", "crankcase"], {}) == {"bore": None, "crankcase": None}


def test_a_component_the_engine_does_not_have_is_not_bought() -> None:
    assert to_buy(GASKETS, ["rod_bolt"], {"balancer_bearing": None}) == {}
