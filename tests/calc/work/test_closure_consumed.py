"""What a job takes new, and what of it must be bought."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from catalogue.calc.engine import Consumption, Operation
from quotes.calc.work.consumed import consumed, to_buy
from tests.calc.small import ENGINE_TYPE, catalogue, component, operation, part


def takes(name: str, *parts: tuple[str, int | None, Literal["always", "policy"]]) -> Operation:
    return operation(name, consumes=tuple(Consumption(*one) for one in parts))


GASKETS = catalogue(
    takes("head_on", ("head_gasket", None, "always"), ("head_bolt", None, "policy")),
    takes("clutch_cover_on", ("cover_gasket", 1, "always")),
    takes("alternator_on", ("cover_gasket", 1, "always")),
    takes("sump_on", ("cover_gasket", 1, "always")),
    takes("cases_join", ("gasket_kit_bottom", None, "always")),
    component("head_gasket"),
    component("head_bolt"),
    component("cover_gasket", count=2),
    component("gasket_kit_bottom"),
    part("cover_gasket", quantity=2),
)


def test_gaskets_that_can_not_be_used_again_get_on_the_quote() -> None:
    assert consumed(GASKETS, ["head_on"], policy=False) == {"head_gasket": None}


def test_parts_of_the_shop_s_choice_come_where_the_shop_renews_them_always() -> None:
    assert consumed(GASKETS, ["head_on"], policy=True) == {"head_gasket": None, "head_bolt": None}


def test_single_gaskets_add_up_over_the_covers() -> None:
    job = ["clutch_cover_on", "alternator_on"]

    assert consumed(GASKETS, job, policy=False) == {"cover_gasket": 2}


def test_no_more_is_taken_than_a_full_set() -> None:
    job = ["clutch_cover_on", "alternator_on", "sump_on"]

    assert consumed(GASKETS, job, policy=False) == {"cover_gasket": 2}


def test_a_number_and_a_full_set_make_a_full_set() -> None:
    shop = catalogue(
        takes("a", ("seal", 1, "always")), takes("b", ("seal", None, "always")), component("seal")
    )

    assert consumed(shop, ["a", "b"], policy=False) == {"seal": None}


def test_cover_gaskets_come_in_the_bottom_end_kit() -> None:
    job = ["clutch_cover_on", "alternator_on", "cases_join"]

    assert consumed(GASKETS, job, policy=False) == {"gasket_kit_bottom": None}


def test_what_is_renewed_is_bought_as_a_full_set_whatever_the_operations_take() -> None:
    taken = consumed(GASKETS, ["clutch_cover_on"], policy=False)

    assert to_buy(GASKETS, ["cover_gasket"], taken) == {"cover_gasket": None}


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
