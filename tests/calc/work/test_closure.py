"""A job is a set of operations: shared strip-down once, all that is required, and put back together."""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.scope.implications import build_graph, close
from quotes.calc.work.work_set import INCLUDED_THERE, IncludedThere, hours_by_kind, included_elsewhere
from tests.calc.small import catalogue, operation

COVER_AND_HEAD = catalogue(
    operation("cover_off", hours=Decimal("0.5"), undo=("cover_on",)),
    operation("cover_on", hours=Decimal("0.7"), kind="assemble"),
    operation("head_off", hours=Decimal("1.0"), requires=("cover_off",), undo=("head_on",)),
    operation("head_on", hours=Decimal("1.3"), kind="assemble"),
    operation("set_valves", hours=Decimal("0.4"), kind="assemble", requires=("cover_off",)),
    operation("engine_out", hours=Decimal("3.5"), undo=("engine_in",)),
    operation("engine_in", hours=Decimal("4.5"), kind="assemble"),
    operation("split", requires=("head_off",), requires_in_chassis=("engine_out",)),
)


def job(shop: EngineCatalogue, *wanted: str, in_chassis: bool = False) -> frozenset[str]:
    """The operations of a job that wants these, as the implications close it."""
    graph = build_graph(shop, in_chassis=in_chassis, policy_parts=False, mendable=frozenset())
    return frozenset(
        code for kind, code in close(graph, [("work", code) for code in wanted]) if kind == "work"
    )


def hours(shop: EngineCatalogue, *wanted: str) -> Decimal:
    return sum(hours_by_kind(shop, job(shop, *wanted)).values(), Decimal(0))


def test_a_wanted_operation_brings_what_it_requires_and_puts_it_back() -> None:
    assert job(COVER_AND_HEAD, "head_off") == {"cover_off", "cover_on", "head_off", "head_on"}


def test_nothing_wanted_is_no_work() -> None:
    assert job(COVER_AND_HEAD, in_chassis=True) == frozenset()


def test_the_undo_brings_what_it_requires_itself() -> None:
    shop = catalogue(
        operation("off", undo=("on",)), operation("on", requires=("clean_faces",)), operation("clean_faces")
    )

    assert "clean_faces" in job(shop, "off")


def test_strip_down_that_two_jobs_share_is_charged_once() -> None:
    assert hours(COVER_AND_HEAD, "head_off") == Decimal("3.5")
    assert hours(COVER_AND_HEAD, "set_valves") == Decimal("1.6")
    assert hours(COVER_AND_HEAD, "head_off", "set_valves") == Decimal("3.9")


def test_an_engine_in_the_chassis_is_taken_out_and_put_back() -> None:
    assert job(COVER_AND_HEAD, "split", in_chassis=True) - job(COVER_AND_HEAD, "split") == {
        "engine_out",
        "engine_in",
    }


@pytest.mark.parametrize("rule", INCLUDED_THERE, ids=lambda rule: rule.operation)
def test_work_that_is_part_of_larger_work_is_not_charged_beside_it(rule: IncludedThere) -> None:
    assert included_elsewhere([rule.operation]) == set()
    assert included_elsewhere([rule.operation, rule.larger]) == {rule.operation}


def test_hours_come_by_kind_of_work_in_the_order_of_the_trade() -> None:
    assert list(hours_by_kind(COVER_AND_HEAD, job(COVER_AND_HEAD, "head_off")).items()) == [
        ("strip", Decimal("1.5")),
        ("assemble", Decimal("2.0")),
    ]
