"""A job is a set of operations: shared strip-down once, all that is required, and put back together."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.work.work_set import (
    INCLUDED_THERE,
    IncludedThere,
    UnknownOperationError,
    hours,
    hours_by_kind,
    job_closure,
)
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


def test_a_wanted_operation_brings_what_it_requires_and_puts_it_back() -> None:
    job = job_closure(COVER_AND_HEAD, ["head_off"], delivered="loose")

    assert job == {"cover_off", "cover_on", "head_off", "head_on"}


def test_nothing_wanted_is_no_work() -> None:
    assert job_closure(COVER_AND_HEAD, [], delivered="in_chassis") == frozenset()


def test_the_undo_brings_what_it_requires_itself() -> None:
    shop = catalogue(
        operation("off", undo=("on",)), operation("on", requires=("clean_faces",)), operation("clean_faces")
    )

    assert "clean_faces" in job_closure(shop, ["off"], delivered="loose")


def test_strip_down_that_two_jobs_share_is_charged_once() -> None:
    head = job_closure(COVER_AND_HEAD, ["head_off"], delivered="loose")
    valves = job_closure(COVER_AND_HEAD, ["set_valves"], delivered="loose")
    both = job_closure(COVER_AND_HEAD, ["head_off", "set_valves"], delivered="loose")

    assert hours(COVER_AND_HEAD, head) == Decimal("3.5")
    assert hours(COVER_AND_HEAD, valves) == Decimal("1.6")
    assert hours(COVER_AND_HEAD, both) == Decimal("3.9")


def test_an_engine_in_the_chassis_is_taken_out_and_put_back() -> None:
    loose = job_closure(COVER_AND_HEAD, ["split"], delivered="loose")
    in_chassis = job_closure(COVER_AND_HEAD, ["split"], delivered="in_chassis")

    assert in_chassis - loose == {"engine_out", "engine_in"}


def test_an_operation_the_engine_does_not_have_is_refused_by_name() -> None:
    with pytest.raises(UnknownOperationError, match="no operation 'cylinder_off' on engine type 'bench'"):
        job_closure(COVER_AND_HEAD, ["cylinder_off"], delivered="loose")


@pytest.mark.parametrize("rule", INCLUDED_THERE, ids=lambda rule: rule.operation)
def test_work_that_is_part_of_larger_work_is_not_charged_beside_it(rule: IncludedThere) -> None:
    shop = catalogue(operation(rule.operation), operation(rule.larger))

    assert job_closure(shop, [rule.operation], delivered="loose") == {rule.operation}
    assert job_closure(shop, [rule.operation, rule.larger], delivered="loose") == {rule.larger}


def test_hours_come_by_kind_of_work_in_the_order_of_the_trade() -> None:
    job = job_closure(COVER_AND_HEAD, ["head_off"], delivered="loose")

    assert list(hours_by_kind(COVER_AND_HEAD, job).items()) == [
        ("strip", Decimal("1.5")),
        ("assemble", Decimal("2.0")),
    ]
