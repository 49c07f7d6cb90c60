"""Machine work against the sizes asked for, and what it takes off an engine over its life."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.bench.parts.taken_off import GOES_WITH, OF_WORK, MachinedOff, running_totals
from quotes.calc.bench.parts.target_sizes import CheckedSize, Target, outside
from tests.cast import shipped

BORE = Target(name="Bore, cylinder 1", low=Decimal("67.000"), high=Decimal("67.012"))


@pytest.mark.parametrize("value", ["67.000", "67.006", "67.012"])
def test_a_size_between_its_bounds_is_as_asked(value: str) -> None:
    assert outside([BORE], [CheckedSize(name=BORE.name, value=Decimal(value))]) == ()


@pytest.mark.parametrize("value", ["66.999", "67.013"])
def test_a_size_outside_is_named_with_what_was_asked(value: str) -> None:
    assert outside([BORE], [CheckedSize(name=BORE.name, value=Decimal(value))]) == (
        f"Bore, cylinder 1 is {value} mm where 67.000 to 67.012 mm was asked for",
    )


def test_a_size_that_nobody_measured_is_a_fault() -> None:
    assert outside([BORE], []) == ("Bore, cylinder 1 was not measured: 67.000 to 67.012 mm was asked for",)


def test_skims_add_up_and_replatings_are_counted() -> None:
    totals = running_totals(
        [
            MachinedOff("skim", "cylinder_head", Decimal("0.10")),
            MachinedOff("replate", "bore", None),
            MachinedOff("skim", "cylinder_head", Decimal("0.05")),
        ]
    )

    assert [(one.kind, one.times, one.depth_mm, one.is_spent) for one in totals] == [
        ("skim", 2, Decimal("0.15"), False),
        ("replate", 1, Decimal(0), True),
    ]


def test_what_is_told_of_machine_work_is_machine_work_that_ships() -> None:
    known = {
        code
        for each in ("single450", "four600", "twin650", "four1000")
        for code in shipped(each).machine_work
    }

    assert {*OF_WORK, *GOES_WITH} <= known | {"deck_skim"}
