"""The closure on the whole catalogue that ships: no loops, legal orders, masks that say what the sets say."""

from __future__ import annotations

from typing import get_args

import pytest

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.order import find_cycles
from quotes.calc.ask.request import Delivered
from quotes.calc.work.bought import SUPPLIED_IN
from quotes.calc.work.order import order_of_work
from quotes.calc.work.work_set import INCLUDED_THERE
from tests.calc.trade_list import brings, hours, job_closure, ways_in
from tests.cast import shipped

TYPES = ("single450", "twin650", "four600", "four1000")
DELIVERIES: tuple[Delivered, ...] = get_args(Delivered)
each_type = pytest.mark.parametrize("code", TYPES)
each_delivery = pytest.mark.parametrize("delivered", DELIVERIES)


@each_type
def test_no_operations_wait_for_each_other(code: str) -> None:
    assert find_cycles(shipped(code).operations.values()) == ()


@each_type
@each_delivery
def test_each_tier_has_an_order_in_which_it_can_be_done(code: str, delivered: Delivered) -> None:
    engine = shipped(code)
    for tier in engine.tiers.values():
        order = order_of_work(engine, job_closure(engine, tier.operations, delivered=delivered))
        place = {operation: number for number, operation in enumerate(order)}
        for operation in order:
            worked = engine.operations[operation]
            earlier = {*worked.requires, *worked.after} & place.keys()
            assert all(place[one] < place[operation] for one in earlier)
            assert all(place[one] > place[operation] for one in worked.undo)


@each_type
def test_what_is_opened_is_closed_after_the_work_inside(code: str) -> None:
    engine = shipped(code)
    order = order_of_work(engine, job_closure(engine, engine.tiers["full"].operations, delivered="loose"))

    assert order.index("clutch_inspect") < order.index("clutch_cover_on")
    assert order.index("crank_in") < order.index("cases_join") < order.index("head_on")
    assert order.index("cams_in") < order.index("valve_shim_set") < order.index("top_cover_on")


@each_type
@each_delivery
def test_included_work_leaves_nothing_behind_that_only_it_required(code: str, delivered: Delivered) -> None:
    engine = shipped(code)
    for one in INCLUDED_THERE:
        larger = job_closure(engine, [one.larger], delivered=delivered)
        assert larger.issuperset(brings(engine, one.operation, delivered))


def test_the_rules_of_the_notes_name_things_that_the_catalogue_holds() -> None:
    engine = shipped("four600")

    for one in INCLUDED_THERE:
        assert {one.operation, one.larger} <= engine.operations.keys()
    for supplied in SUPPLIED_IN:
        assert {supplied.component, supplied.article} <= engine.components.keys()


@each_type
def test_in_the_chassis_no_job_is_shorter(code: str) -> None:
    engine = shipped(code)
    for operation in engine.operations:
        loose = job_closure(engine, [operation], delivered="loose")
        in_chassis = job_closure(engine, [operation], delivered="in_chassis")
        assert loose <= in_chassis
        assert hours(engine, loose) <= hours(engine, in_chassis)


def _first_way(engine: EngineCatalogue, component: str) -> tuple[str, ...]:
    return (*ways_in(engine, component)[0], *engine.components[component].with_operations)
