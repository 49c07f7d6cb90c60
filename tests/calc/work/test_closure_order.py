"""The order of work can be carried out, is always the same, and a loop is named."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.engine import Operation
from catalogue.calc.order import CycleInWorkError, find_cycles
from quotes.calc.work.order import order_of_work
from quotes.calc.work.work_set import UnknownOperationError
from tests.calc.small import catalogue, operation


def test_what_is_required_comes_first_and_the_undo_after_its_strip() -> None:
    shop = catalogue(operation("on"), operation("off", undo=("on",), requires=("clean",)), operation("clean"))

    assert order_of_work(shop, ["on", "off", "clean"]) == ("clean", "off", "on")


def test_after_counts_only_where_both_are_in_the_job() -> None:
    shop = catalogue(operation("map", after=("run_in",)), operation("run_in"))

    assert order_of_work(shop, ["map"]) == ("map",)
    assert order_of_work(shop, ["map", "run_in"]) == ("run_in", "map")


def test_ties_go_by_the_catalogue_however_the_job_is_listed() -> None:
    shop = catalogue(operation("one"), operation("two"), operation("three"))

    assert order_of_work(shop, {"three", "one", "two"}) == ("one", "two", "three")


def test_work_inside_a_cover_is_done_before_the_cover_is_closed() -> None:
    shop = catalogue(
        operation("cover_off", undo=("cover_on",)),
        operation("cover_on", kind="assemble"),
        operation("plates_swap", requires=("cover_off",)),
    )

    assert order_of_work(shop, shop.operations) == ("cover_off", "plates_swap", "cover_on")


def test_an_inner_cover_goes_back_before_the_outer_one() -> None:
    shop = catalogue(
        operation("outer_off", undo=("outer_on",)),
        operation("outer_on"),
        operation("inner_off", requires=("outer_off",), undo=("inner_on",)),
        operation("inner_on"),
    )

    assert order_of_work(shop, shop.operations) == ("outer_off", "inner_off", "inner_on", "outer_on")


def test_work_that_the_catalogue_puts_after_the_closing_stays_after_it() -> None:
    shop = catalogue(
        operation("cams_out", undo=("cams_in",)),
        operation("set_valves", requires=("cams_out",), after=("cams_in",)),
        operation("cams_in"),
        operation("wash"),
    )

    assert order_of_work(shop, shop.operations) == ("cams_out", "cams_in", "set_valves", "wash")


def test_a_loop_is_named_from_its_first_operation_on() -> None:
    shop = catalogue(
        operation("head_on", after=("cams_in",)),
        operation("cams_in", after=("head_on",)),
        operation("wash"),
    )

    with pytest.raises(CycleInWorkError, match="head_on > cams_in > head_on") as caught:
        order_of_work(shop, shop.operations)
    assert caught.value.loop == ("head_on", "cams_in")


def test_a_strip_that_waits_for_its_own_undo_is_a_loop() -> None:
    assert find_cycles([operation("off", undo=("on",), after=("on",)), operation("on")]) == (("off", "on"),)


def test_an_operation_that_requires_itself_is_a_loop() -> None:
    assert find_cycles([operation("off", requires=("off",))]) == (("off",),)


def test_a_loop_that_only_an_engine_in_the_chassis_has_is_found() -> None:
    out = operation("out", requires=("drain",))
    drain = operation("drain", requires_in_chassis=("out",))

    assert find_cycles([out, drain]) == (("out", "drain"),)


def test_each_knot_is_named_once() -> None:
    pairs = [("a", "b"), ("b", "a"), ("c", "d"), ("d", "c"), ("e", "a")]
    operations = [operation(code, requires=(other,)) for code, other in pairs]

    assert find_cycles(operations) == (("a", "b"), ("c", "d"))


def test_a_job_of_an_unknown_operation_has_no_order() -> None:
    with pytest.raises(UnknownOperationError, match="'polish'"):
        order_of_work(catalogue(), ["polish"])


@st.composite
def acyclic(draw: st.DrawFn) -> list[Operation]:
    """Operations that wait only for earlier ones, shuffled so that the catalogue's order is no help."""
    count = draw(st.integers(1, 9))
    made = []
    for number in range(count):
        earlier = st.lists(st.sampled_from([f"o{n}" for n in range(number)]), unique=True, max_size=3)
        requires = draw(earlier) if number else []
        after = draw(earlier) if number else []
        undo = [f"o{n}" for n in range(number + 1, count) if draw(st.integers(0, 5)) == 0]
        made.append(operation(f"o{number}", requires=tuple(requires), after=tuple(after), undo=tuple(undo)))
    return draw(st.permutations(made))


@given(acyclic())
def test_any_job_without_a_loop_gets_a_legal_order(operations: list[Operation]) -> None:
    shop = catalogue(*operations)

    order = order_of_work(shop, shop.operations)

    assert sorted(order) == sorted(shop.operations)
    place = {code: number for number, code in enumerate(order)}
    for one in operations:
        assert all(place[code] < place[one.code] for code in (*one.requires, *one.after))
        assert all(place[code] > place[one.code] for code in one.undo)
