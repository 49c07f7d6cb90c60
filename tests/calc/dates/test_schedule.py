"""When a job is ready: queue, strip-down, shipments, bench hours, and the working calendar."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.engine import LeadTime
from quotes.calc.dates.arrival import Sent
from quotes.calc.dates.schedule import (
    BenchHours,
    add_working_days,
    bench_hours,
    ready_dates,
    schedule,
    working_days_until,
)
from quotes.calc.shop import Queue
from tests.calc.small import catalogue, operation

MONDAY = date(2027, 2, 1)
FRIDAY = date(2027, 2, 5)
HOLIDAY = date(2027, 2, 8)
"""A Monday on which the shop is closed."""
QUEUE = Queue(bench_hours_a_day=Decimal(6), hours_in_hand=Decimal(0), closed_days=frozenset())
IN_STOCK = LeadTime(0, 0)


@pytest.mark.parametrize(
    ("on", "days", "there"),
    [
        (MONDAY, 0, MONDAY),
        (MONDAY, 4, FRIDAY),
        (MONDAY, 5, date(2027, 2, 9)),  # over a week-end and a closed Monday
        (FRIDAY, 1, date(2027, 2, 9)),
        (date(2027, 2, 6), 0, date(2027, 2, 9)),  # a Saturday before it
    ],
)
def test_working_days_skip_week_ends_and_closed_days(on: date, days: int, there: date) -> None:
    assert add_working_days(on, days, {HOLIDAY}) == there


def test_working_days_are_counted_forward_only() -> None:
    with pytest.raises(ValueError, match="not -1"):
        add_working_days(MONDAY, -1, ())


@given(st.integers(1, 400))
def test_counting_days_and_adding_them_agree(days: int) -> None:
    assert working_days_until(MONDAY, add_working_days(MONDAY, days, {HOLIDAY}), {HOLIDAY}) == days


def test_no_working_day_lies_before_today() -> None:
    assert working_days_until(FRIDAY, MONDAY, ()) == 0


def test_with_all_in_stock_bench_hours_alone_set_the_date() -> None:
    ready = ready_dates(MONDAY, QUEUE, Decimal(9), Decimal(15), {"counter": IN_STOCK})

    assert ready.typical == ready.p90 == FRIDAY  # 24 hours at 6 a day


def test_the_shop_s_queue_comes_first() -> None:
    busy = replace(QUEUE, hours_in_hand=Decimal(30))

    ready = ready_dates(MONDAY, busy, Decimal(9), Decimal(15), {})

    assert ready.typical == date(2027, 2, 12)


def test_a_day_that_is_begun_counts() -> None:
    assert ready_dates(MONDAY, QUEUE, Decimal(1), Decimal("5.1"), {}).typical == date(2027, 2, 3)


def test_parts_that_come_while_the_shop_is_busy_cost_no_day() -> None:
    busy = replace(QUEUE, hours_in_hand=Decimal(300))
    fast = {"counter": LeadTime(2, 4)}

    with_parts = ready_dates(MONDAY, busy, Decimal(6), Decimal(6), fast)

    assert with_parts == ready_dates(MONDAY, busy, Decimal(6), Decimal(6), {})


def test_a_slow_shipment_moves_the_promise_more_than_the_typical_date() -> None:
    ready = ready_dates(MONDAY, QUEUE, Decimal(6), Decimal(6), {"importer": LeadTime(10, 40)})

    assert ready.typical == add_working_days(MONDAY, 11, ())
    assert ready.p90 == add_working_days(MONDAY, 41, ())
    assert ready.typical < ready.p80 < ready.p90


def test_machine_work_waits_for_the_engine_to_be_stripped() -> None:
    busy = replace(QUEUE, hours_in_hand=Decimal(54))
    exact = Sent(LeadTime(5, 5))

    ready = ready_dates(MONDAY, busy, Decimal(6), Decimal(6), {}, [exact])

    assert ready.typical == add_working_days(MONDAY, 10 + 5 + 1, ())


def test_machine_work_that_needs_new_parts_waits_for_them() -> None:
    parts = {"importer": LeadTime(20, 20), "counter": LeadTime(2, 2)}
    waiting = Sent(LeadTime(5, 5), frozenset({"importer"}))

    ready = ready_dates(MONDAY, QUEUE, Decimal(6), Decimal(6), parts, [waiting])

    assert ready.typical == add_working_days(MONDAY, 20 + 5 + 1, ())


def test_new_parts_that_are_early_do_not_send_the_engine_out_before_it_is_stripped() -> None:
    busy = replace(QUEUE, hours_in_hand=Decimal(54))
    waiting = Sent(LeadTime(5, 5), frozenset({"counter"}))

    ready = ready_dates(MONDAY, busy, Decimal(6), Decimal(6), {"counter": LeadTime(2, 2)}, [waiting])

    assert ready.typical == add_working_days(MONDAY, 10 + 5 + 1, ())


def test_a_shop_without_bench_hours_is_refused() -> None:
    with pytest.raises(ValueError, match="0 bench hours a day"):
        ready_dates(MONDAY, replace(QUEUE, bench_hours_a_day=Decimal(0)), Decimal(1), Decimal(1), {})


def test_strip_down_and_measuring_are_done_while_parts_are_on_their_way() -> None:
    shop = catalogue(
        operation("intake", kind="office", hours=Decimal("0.5")),
        operation("head_off", hours=Decimal("1.0")),
        operation("wash", kind="clean", hours=Decimal("1.2")),
        operation("measure", kind="inspect", hours=Decimal("0.3")),
        operation("head_on", kind="assemble", hours=Decimal("1.3")),
        operation("run_in", kind="test", hours=Decimal("2.0")),
    )

    assert bench_hours(shop, shop.operations) == BenchHours(Decimal("3.0"), Decimal("3.3"))


leads = st.tuples(st.floats(0, 60), st.floats(0, 120)).map(lambda pair: LeadTime(*pair))
chances = st.floats(0.01, 0.95)
"""Far beyond the slow figure's 90 %, a lead of nought or four months runs past the forty years looked at."""


@given(
    st.dictionaries(st.sampled_from("abc"), leads),
    st.lists(st.builds(Sent, leads, st.frozensets(st.sampled_from("abc")))),
    chances,
    chances,
)
def test_a_surer_date_is_never_an_earlier_one(
    shipments: dict[str, LeadTime], sent: list[Sent], one: float, other: float
) -> None:
    job = schedule(MONDAY, QUEUE, BenchHours(Decimal(9), Decimal(15)), shipments, sent)
    less, more = sorted((one, other))

    assert job.date_for(less) <= job.date_for(more)


@given(st.dictionaries(st.sampled_from("abc"), leads), chances)
def test_by_the_date_of_a_chance_the_job_is_ready_with_that_chance(
    shipments: dict[str, LeadTime], chance: float
) -> None:
    job = schedule(MONDAY, QUEUE, BenchHours(Decimal(9), Decimal(15)), shipments)

    assert job.chance_by(job.date_for(chance)) >= chance - 1e-9


def test_bench_days_that_fill_a_day_exactly_are_done_on_that_day() -> None:
    hours = [BenchHours(Decimal(strip) / 10, Decimal(60 * 3 - strip) / 10) for strip in range(1, 180)]

    jobs = [schedule(MONDAY, QUEUE, each, {}) for each in hours]

    assert all(job.chance_by(date(2027, 2, 4)) == 1.0 for job in jobs)
    assert all(job.chance_by(date(2027, 2, 3)) == 0.0 for job in jobs)
    assert all(job.date_for(0.9) == date(2027, 2, 4) for job in jobs)


def test_the_chance_rises_day_by_day() -> None:
    job = schedule(MONDAY, QUEUE, BenchHours(Decimal(6), Decimal(6)), {"importer": LeadTime(10, 40)})

    chances = [job.chance_by(add_working_days(MONDAY, day, ())) for day in range(1, 80)]

    assert chances == sorted(chances)
    assert chances[0] == 0.0
    assert chances[-1] > 0.97


@pytest.mark.parametrize("chance", [0.0, 1.0])
def test_no_date_is_certain(chance: float) -> None:
    job = schedule(MONDAY, QUEUE, BenchHours(Decimal(6), Decimal(6)), {})

    with pytest.raises(ValueError, match="between 0 and 1"):
        job.date_for(chance)
