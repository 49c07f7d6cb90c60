"""The closure as bit masks says the same as the closure as sets, and what it adds: costs, counts, ways in."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.closure import ClosureIndex, hours, job_closure
from tests.calc.small import SHOP, catalogue, component, machine_work, operation

SMALL = catalogue(
    operation("cover_off", hours=Decimal("0.3"), undo=("cover_on",)),
    operation("cover_on", hours=Decimal("0.4"), kind="assemble"),
    operation("clutch_out", hours=Decimal("0.7"), requires=("cover_off",), undo=("clutch_in",)),
    operation("clutch_in", hours=Decimal("0.8"), kind="assemble"),
    operation("clutch_plates_swap", hours=Decimal("0.4"), kind="assemble", requires=("cover_off",)),
    operation("measure", hours=Decimal("0.2"), kind="inspect", requires=("cover_off",)),
    component("plates", access_operations=("cover_off",), with_operations=("clutch_plates_swap",)),
    component("basket", access_operations=("clutch_out",), with_operations=("measure",)),
    machine_work("balance", needs_operations=("clutch_out",)),
)


def test_a_component_brings_its_access_and_the_work_that_goes_with_it() -> None:
    index = ClosureIndex(SMALL, "loose")

    assert index.operations(index.mask_for("basket")) == {
        "cover_off",
        "cover_on",
        "clutch_out",
        "clutch_in",
        "measure",
    }


def test_included_work_drops_out_when_the_larger_work_joins() -> None:
    index = ClosureIndex(SMALL, "loose")
    plates = index.mask_for("plates")

    assert index.hours(plates) == Decimal("1.1")
    assert index.hours(plates | index.mask_for("basket")) == Decimal("2.4")


def test_labour_costs_hours_at_the_rate_of_their_kind() -> None:
    rates = {**SHOP.labour_rates, "strip": Decimal(85)}
    index = ClosureIndex(SMALL, "loose", rates)

    assert index.cost(index.mask_for("plates")) == Decimal("0.3") * 85 + Decimal("0.8") * 110


def test_without_rates_there_is_no_cost() -> None:
    index = ClosureIndex(SMALL, "loose")

    with pytest.raises(ValueError, match="without labour rates"):
        index.cost(0)


def test_assembly_operations_are_counted_for_the_faults_they_may_bring() -> None:
    index = ClosureIndex(SMALL, "loose")

    assert index.assembly_operations(index.mask_for("plates") | index.mask_for("basket")) == 2


def test_machine_work_brings_what_must_be_off_before_it_can_go_out() -> None:
    index = ClosureIndex(SMALL, "loose")

    assert index.mask_for_machine_work("balance") == index.mask_of(["clutch_out"])


def test_the_way_in_depends_on_what_the_job_holds() -> None:
    shop = catalogue(
        operation("outside", hours=Decimal("0.5")),
        operation("split", hours=Decimal("1.6")),
        component("seal", access_any_of=(("outside",), ("split",))),
    )
    index = ClosureIndex(shop, "loose")
    split = index.mask_of(["split"])

    assert index.mask_for("seal") == index.mask_of(["outside"])
    assert index.mask_for("seal", have=split) == split


def test_masks_and_sets_agree_on_any_two_operations() -> None:
    index = ClosureIndex(SMALL, "loose")
    for one in SMALL.operations:
        for two in SMALL.operations:
            mask = index.mask_of([one]) | index.mask_of([two])
            job = job_closure(SMALL, [one, two], delivered="loose")
            assert index.operations(mask) == job
            assert index.hours(mask) == hours(SMALL, job)
