"""The ready date follows every event."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from catalogue.calc.engine import LeadTime
from quotes.calc.bench.ready import Ahead, OnTheWay, hours_left, lead_left, outlook
from quotes.calc.dates.schedule import BenchHours
from quotes.calc.shop import Queue
from tests.cast import shipped

MONDAY = date(2027, 2, 1)
PROMISED = date(2027, 3, 5)
QUEUE = Queue(Decimal(6), Decimal(0), frozenset())
SPRINGS = OnTheWay("16 valve springs", "P-2027-0001", date(2027, 2, 8), date(2027, 2, 22))
HOURS = BenchHours(Decimal(0), Decimal(30))
AHEAD = Ahead(HOURS, QUEUE, on_the_way=(SPRINGS,))
HERE = replace(AHEAD, on_the_way=())


def test_what_is_here_is_certain_and_only_the_bench_is_left() -> None:
    found = outlook(MONDAY, HERE, PROMISED)

    assert found.ready.typical == found.ready.p90 == date(2027, 2, 8)
    assert found.chance_by_promised == 1.0
    assert found.waits == ("30 h on the bench",)


def test_what_is_awaited_comes_on_its_expected_day_one_time_in_two() -> None:
    found = outlook(MONDAY, AHEAD, PROMISED)

    assert found.ready.typical == SPRINGS.expected_on + timedelta(days=7)
    assert found.ready.p90 == SPRINGS.slow_on + timedelta(days=7)
    assert found.slowest == "16 valve springs"


def test_a_back_order_moves_the_median_by_as_much_and_keeps_the_spread() -> None:
    later = replace(SPRINGS, promised_on=date(2027, 2, 22))

    assert lead_left(SPRINGS, MONDAY, ()) == LeadTime(5, 15)
    assert lead_left(later, MONDAY, ()) == LeadTime(15, 25)
    moved = outlook(MONDAY, replace(AHEAD, on_the_way=(later,)), PROMISED)
    assert moved.ready.typical == date(2027, 3, 1)
    assert moved.late
    assert not outlook(MONDAY, AHEAD, PROMISED).late


def test_what_is_overdue_is_not_thought_to_have_come() -> None:
    on = date(2027, 2, 10)

    assert lead_left(SPRINGS, on, ()) == LeadTime(1, 11)
    assert outlook(on, AHEAD, PROMISED).ready.typical > outlook(on, HERE, PROMISED).ready.typical


def test_every_arrival_makes_the_promise_likelier_and_every_delay_less_likely() -> None:
    slow = OnTheWay("Crankshaft", "P-2027-0002", date(2027, 2, 15), date(2027, 3, 8))
    both = replace(AHEAD, on_the_way=(SPRINGS, slow))
    delayed = replace(both, on_the_way=(SPRINGS, replace(slow, promised_on=date(2027, 3, 1))))
    chances = [
        outlook(MONDAY, ahead, PROMISED).chance_by_promised or 0 for ahead in (delayed, both, AHEAD, HERE)
    ]

    assert chances == sorted(chances)
    assert chances[0] < chances[1] < chances[2]


def test_machine_work_out_is_awaited_like_a_delivery() -> None:
    out = OnTheWay("M-2027-0001", "M-2027-0001", date(2027, 2, 22), date(2027, 2, 22))

    assert outlook(MONDAY, replace(HERE, out=(out,)), PROMISED).ready.p90 == date(2027, 3, 1)


def test_machine_work_not_sent_yet_waits_for_the_new_parts_that_go_with_it() -> None:
    work = shipped("four600").machine_work["replate"]
    fixed = replace(work, lead=LeadTime(10, 10))
    pistons = replace(
        SPRINGS, components=frozenset({"piston"}), expected_on=date(2027, 2, 15), slow_on=date(2027, 2, 15)
    )

    waits = outlook(MONDAY, replace(AHEAD, on_the_way=(pistons,), to_send=(fixed,)), PROMISED)
    there = outlook(MONDAY, replace(HERE, to_send=(fixed,)), PROMISED)

    assert there.ready.p90 == date(2027, 2, 22)
    assert waits.ready.typical == date(2027, 3, 8)


def test_what_is_not_ordered_yet_has_its_whole_lead_before_it() -> None:
    part = shipped("four600").parts["valve_spring", "stock"]

    found = outlook(MONDAY, replace(HERE, to_order=(part,)), PROMISED)

    assert found.ready.typical > outlook(MONDAY, HERE, PROMISED).ready.typical
    assert found.waits[0] == "1 article to be ordered"


@pytest.mark.parametrize(("stripped", "strip"), [(True, Decimal(0)), (False, Decimal("1.5"))])
def test_hours_clocked_are_taken_off_and_never_more_than_there_were(stripped: bool, strip: Decimal) -> None:
    catalogue = shipped("four600")
    split, on = catalogue.operations["cases_split"], catalogue.operations["head_on"]
    clocked = {"cases_split": split.hours - Decimal("1.5"), "head_on": on.hours + 3}

    left = hours_left(catalogue, ["cases_split", "head_on"], clocked, stripped=stripped)

    assert (left.strip, left.assembly) == (strip, Decimal(0))
