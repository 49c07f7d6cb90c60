"""Where a job fits on the bench."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.dates.before_date import before_date
from quotes.calc.dates.slots import (
    Bench,
    Promise,
    Slot,
    earliest_slot,
    hours_a_day,
    hours_before_room,
    lay_out,
    next_slot,
    slot_in_week,
)

MONDAY = date(2027, 1, 4)
A_DAY = Decimal("6.6")
A_WEEK = Decimal("33.0")


def bench(
    *promises: Promise, on: date = MONDAY, closed: frozenset[date] = frozenset(), weeks: int = 78
) -> Bench:
    return lay_out(on, A_DAY, closed, promises, weeks)


def week(number: int) -> date:
    return MONDAY + timedelta(weeks=number)


def found(slot: Slot | None) -> Slot:
    assert slot is not None
    return slot


def test_a_week_to_promise_is_five_days_of_bench_hours() -> None:
    assert hours_a_day(Decimal("32.5")) == Decimal("6.5")


def test_a_week_has_five_days_of_bench_hours_less_the_closed_ones() -> None:
    laid = bench(closed=frozenset({week(1), week(1) + timedelta(days=1), week(1) + timedelta(days=5)}))
    assert [one.there_is for one in laid.weeks[:3]] == [A_WEEK, Decimal("19.8"), A_WEEK]


def test_of_a_week_that_has_begun_only_the_days_left_count() -> None:
    laid = bench(on=MONDAY + timedelta(days=3))
    assert (laid.weeks[0].monday, laid.weeks[0].there_is) == (MONDAY, Decimal("13.2"))


def test_what_does_not_fit_its_week_goes_into_the_next_with_room() -> None:
    laid = bench(Promise(Decimal(40), week(1)), Promise(Decimal(30), week(1)))
    assert [one.promised for one in laid.weeks[:5]] == [0, A_WEEK, A_WEEK, 4, 0]


def test_who_was_promised_first_keeps_their_place() -> None:
    first, later = Promise(A_WEEK, week(2)), Promise(Decimal(40), week(1))
    assert [one.promised for one in bench(first, later).weeks[:4]] == [0, A_WEEK, A_WEEK, 7]


def test_a_promise_of_a_week_gone_by_begins_now() -> None:
    assert bench(Promise(Decimal(10), MONDAY - timedelta(weeks=3))).weeks[0].promised == 10


def test_promised_hours_without_room_are_counted_and_not_lost() -> None:
    assert bench(Promise(Decimal(100)), weeks=2).beyond == 34


def test_an_empty_bench_takes_the_job_at_once() -> None:
    slot = found(earliest_slot(bench(), Decimal(45)))
    assert (slot.start, slot.finish) == (week(0), week(1))
    assert slot.hours_by_week == ((week(0), A_WEEK), (week(1), Decimal("12.0")))
    assert slot.ready_on == date(2027, 1, 15)


def test_two_free_hours_before_full_weeks_are_no_start() -> None:
    full = [Promise(A_WEEK, week(number)) for number in range(1, 6)]
    slot = found(earliest_slot(bench(Promise(Decimal(31)), *full), Decimal(20)))
    assert slot.start == week(6)


def test_one_full_week_in_the_middle_of_a_job_is_borne() -> None:
    slot = found(earliest_slot(bench(Promise(A_WEEK, week(1))), Decimal(45)))
    assert (slot.start, slot.finish) == (week(0), week(2))


def test_two_full_weeks_in_the_middle_of_a_job_are_not_borne() -> None:
    slot = found(earliest_slot(bench(Promise(A_WEEK, week(1)), Promise(A_WEEK, week(2))), Decimal(45)))
    assert slot.start == week(3)


def test_a_closed_week_in_the_middle_is_no_delay() -> None:
    closed = frozenset(week(1) + timedelta(days=day) for day in range(5))
    slot = found(earliest_slot(bench(Promise(A_WEEK, week(2)), closed=closed), Decimal(45)))
    assert (slot.start, slot.finish) == (week(0), week(3))


def test_the_engine_must_be_there_on_the_last_open_day_before() -> None:
    friday = week(2) - timedelta(days=3)
    promise = Promise(A_WEEK * 2)
    assert found(earliest_slot(bench(promise), Decimal(20))).arrive_by == friday
    closed = frozenset({friday})
    assert found(earliest_slot(bench(promise, closed=closed), Decimal(20))).arrive_by == friday - timedelta(
        days=1
    )


def test_a_job_that_begins_today_wants_its_engine_today() -> None:
    wednesday = MONDAY + timedelta(days=2)
    assert found(earliest_slot(bench(on=wednesday), Decimal(5))).arrive_by == wednesday


def test_a_slow_part_makes_the_engine_ready_later_than_the_bench_does() -> None:
    slot = found(earliest_slot(bench(), Decimal(20), lead_days=15))
    assert (slot.finish, slot.ready_on) == (week(0), date(2027, 1, 25))


def test_on_the_phone_a_week_that_has_begun_is_not_offered() -> None:
    wednesday = MONDAY + timedelta(days=2)
    slot = found(next_slot(bench(on=wednesday), Decimal(5)))
    assert (slot.start, slot.arrive_by) == (week(1), date(2027, 1, 8))


def test_an_engine_that_comes_in_later_gets_a_later_slot() -> None:
    assert found(earliest_slot(bench(), Decimal(20), not_before=date(2027, 2, 17))).start == date(2027, 2, 15)


def test_a_bench_full_to_the_horizon_has_no_slot() -> None:
    assert earliest_slot(bench(Promise(Decimal(100)), weeks=3), Decimal(1)) is None


def test_a_job_of_no_hours_is_refused() -> None:
    with pytest.raises(ValueError, match="more than no hours"):
        earliest_slot(bench(), Decimal(0))


def test_full_weeks_before_the_date_are_said() -> None:
    jobs = tuple(Promise(A_WEEK, week(number), date(2027, 2, 6)) for number in range(5))
    laid = bench(*jobs)
    said = before_date(laid, earliest_slot(laid, Decimal(20)), date(2027, 2, 6), jobs)
    assert (said.full, said.in_time, said.same_day) == (True, False, 5)
    assert (said.there_is, said.promised) == (A_WEEK * 5, A_WEEK * 5)


def test_ready_on_the_friday_is_in_time_for_the_saturday_and_not_for_the_friday() -> None:
    laid = bench()
    slot = earliest_slot(laid, Decimal(20))
    assert before_date(laid, slot, date(2027, 1, 9)).in_time
    assert not before_date(laid, slot, date(2027, 1, 8)).in_time


def test_a_week_that_ends_on_the_day_itself_does_not_count_as_before() -> None:
    assert before_date(bench(), None, date(2027, 1, 15)).there_is == A_WEEK


def test_hours_before_room_leave_out_promises_behind_a_free_week() -> None:
    near, far = Promise(Decimal(40)), Promise(A_WEEK, week(10))
    assert hours_before_room(bench(near, far)) == 40


def test_hours_before_room_count_all_where_there_is_no_room() -> None:
    assert hours_before_room(bench(Promise(Decimal(100)), weeks=2)) == 100


hours = st.decimals(min_value="0.1", max_value="90", places=1)
promises = st.lists(st.builds(Promise, hours, st.none() | st.integers(-2, 20).map(week)), max_size=15)
closed_days = st.frozensets(st.integers(0, 120).map(lambda days: MONDAY + timedelta(days=days)), max_size=40)
days = st.integers(0, 13).map(lambda count: MONDAY + timedelta(days=count))


@given(promises, closed_days, days)
def test_no_hour_is_lost_and_no_week_holds_more_than_it_has(
    made: list[Promise], closed: frozenset[date], on: date
) -> None:
    laid = bench(*made, on=on, closed=closed, weeks=30)
    assert sum(one.promised for one in laid.weeks) + laid.beyond == sum(one.hours for one in made)
    assert all(0 <= one.promised <= one.there_is for one in laid.weeks)


@given(promises, closed_days, days, hours)
def test_booking_the_earliest_slot_takes_its_hours_and_moves_nobody(
    made: list[Promise], closed: frozenset[date], on: date, wanted: Decimal
) -> None:
    before = bench(*made, on=on, closed=closed)
    slot = found(earliest_slot(before, wanted))
    after = bench(*made, Promise(wanted, slot.start), on=on, closed=closed)
    taken = {
        old.monday: new.promised - old.promised for old, new in zip(before.weeks, after.weeks, strict=True)
    }
    assert {monday: put for monday, put in taken.items() if put} == dict(slot.hours_by_week)


@given(promises, closed_days, days, hours)
def test_no_earlier_week_would_have_held_the_job(
    made: list[Promise], closed: frozenset[date], on: date, wanted: Decimal
) -> None:
    laid = bench(*made, on=on, closed=closed)
    slot = found(earliest_slot(laid, wanted))
    assert slot_in_week(laid, slot.start, wanted) == slot
    for index, one in enumerate(laid.weeks):
        if one.monday < slot.start:
            free = [later.free for later in laid.weeks[index:]]
            assert free[0] == 0 or weeks_until(free, wanted) > 1 + weeks_until(
                [later.there_is for later in laid.weeks[index:]], wanted
            )


def weeks_until(room: list[Decimal], wanted: Decimal) -> int:
    """Weeks until room adds up to what is wanted; counted apart from the code under test."""
    return next(count for count in range(1, len(room) + 1) if sum(room[:count]) >= wanted)


@given(promises, closed_days, days, hours, hours)
def test_a_longer_job_is_never_ready_before_a_shorter_one_of_the_same_start(
    made: list[Promise], closed: frozenset[date], on: date, one: Decimal, other: Decimal
) -> None:
    laid = bench(*made, on=on, closed=closed)
    short, long = sorted((one, other))
    for start in laid.weeks[:20]:
        held = slot_in_week(laid, start.monday, long)
        less = slot_in_week(laid, start.monday, short)
        if held and less:
            assert less.ready_on <= held.ready_on


@given(promises, closed_days, days, hours)
def test_the_engine_comes_in_on_an_open_day_not_in_the_past(
    made: list[Promise], closed: frozenset[date], on: date, wanted: Decimal
) -> None:
    slot = found(earliest_slot(bench(*made, on=on, closed=closed), wanted))
    assert on <= slot.arrive_by <= slot.ready_on
    assert slot.arrive_by.weekday() < 5
    assert slot.arrive_by not in closed
