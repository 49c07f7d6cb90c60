"""A price that was agreed as a whole holds the work that it brings."""

from __future__ import annotations

import pytest

from quotes.calc.bench.again.fixed_price import holds_its_work, work_of_renewing
from quotes.calc.invoice.draft import DraftLine
from tests.calc.bench.test_picking import option_of
from tests.calc.invoice.plain import draft_line
from tests.cast import shipped

REFRESH = option_of("single450", "refresh")


def brought(*components: str) -> frozenset[str]:
    return work_of_renewing(components, REFRESH, shipped("single450"), in_chassis=False, policy_parts=False)


def test_an_extra_holds_the_work_that_fits_it() -> None:
    assert brought("balancer_bearing") == {"balancer_in", "balancer_out"}


def test_an_extra_does_not_hold_what_the_option_does_anyway() -> None:
    assert not brought("balancer_bearing") & set(REFRESH.operations)


def test_no_extra_holds_no_work_and_neither_does_one_that_the_catalogue_no_longer_has() -> None:
    assert brought() == brought("no_such_part") == frozenset()


LABOUR = draft_line("1.5", "110", kind="labour", unit="h")


@pytest.mark.parametrize(
    ("lines", "holds"),
    [
        ([LABOUR], True),
        ([LABOUR.model_copy(update={"operation": "balance"})], False),
        ([LABOUR.model_copy(update={"quantity": -LABOUR.quantity})], False),
        ([draft_line("4", "20")], False),
    ],
    ids=["hours agreed", "by the clock of its operation", "work taken off", "parts alone"],
)
def test_extra_work_holds_its_work_where_hours_were_agreed_that_no_clock_changes(
    lines: list[DraftLine], holds: bool
) -> None:
    assert holds_its_work(lines) is holds
