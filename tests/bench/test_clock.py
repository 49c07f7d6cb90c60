"""The clock: one a person, stopped by the next, asked about when it was forgotten, and never counted then."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.bench.clock import settle_clock, start_clock, stop_clock
from quotes.actions.bench.refused import ClockForgotten, WaitsForAnswer
from quotes.actions.books.extra_work import About
from quotes.models import ClockRun, Job, WorkedHours
from quotes.queries.books.build import build_account
from tests.bench.cast import NOW, built_job, job
from tests.bench.test_extra_work import extra
from tests.cast import builder, owner
from tests.shipped import load_shipped

HOUR = timedelta(hours=1)
EIGHT = NOW.replace(hour=8, minute=0)


def start(of: Job, operation: str = "head_on", **change: object) -> ClockRun:
    fields: dict[str, object] = {"key": uuid4(), "by": builder(), "now": EIGHT}
    return start_clock(job=of, operation=operation, **(fields | change))  # type: ignore[arg-type]


def hours() -> list[tuple[str, Decimal]]:
    return list(WorkedHours.objects.order_by("pk").values_list("operation", "hours"))


def test_a_stopped_clock_becomes_hours_of_its_person_and_build(db: None) -> None:
    of = built_job()

    stop_clock(run=start(of), now=EIGHT + 1.75 * HOUR)

    assert hours() == [("head_on", Decimal("1.75"))]
    assert of.quote is not None
    build = of.quote.acceptance
    clocked = {row.operation: row.clocked for row in build_account(build, NOW.date()).hours}
    assert clocked["head_on"] == Decimal("1.75")


def test_hours_before_the_yes_stay_with_the_job(db: None) -> None:
    of = job()

    stop_clock(run=start(of, "strip_top"), now=EIGHT + HOUR)

    row = WorkedHours.objects.get()
    assert (row.build, row.job) == (None, of)


def test_starting_on_other_work_stops_the_first(db: None) -> None:
    of = built_job()
    start(of)

    start(of, "cases_split", now=EIGHT + HOUR)

    assert hours() == [("head_on", Decimal(1))]
    assert ClockRun.objects.running().get().operation == "cases_split"


def test_two_builders_run_a_clock_each_on_one_engine(db: None) -> None:
    of = built_job()
    start(of)
    start(of, by=owner())

    assert ClockRun.objects.running().count() == 2


def test_a_second_press_starts_no_second_clock(db: None) -> None:
    of, key = built_job(), uuid4()

    assert start(of, key=key) == start(of, key=key) == start(of)


def test_a_clock_left_running_overnight_is_not_counted(db: None) -> None:
    run = start(built_job())

    with pytest.raises(ClockForgotten, match="Say first how long the work really took"):
        stop_clock(run=run, now=EIGHT + 24 * HOUR)

    assert hours() == []
    settle_clock(run=run, hours=Decimal(3), words="Went home with it running", now=EIGHT + 24 * HOUR)
    assert hours() == [("head_on", Decimal(3))]


def test_a_forgotten_clock_holds_up_the_next_one_until_it_is_settled(db: None) -> None:
    of = built_job()
    run = start(of)

    with pytest.raises(ClockForgotten):
        start(of, "cases_split", now=EIGHT + 24 * HOUR)

    settle_clock(run=run, hours=Decimal(0), words="Never began", now=EIGHT + 24 * HOUR)
    assert start(of, "cases_split", now=EIGHT + 24 * HOUR).stopped_at is None
    assert hours() == []


@pytest.mark.parametrize(
    ("given", "words", "field"), [("25", "x", "hours"), ("-1", "x", "hours"), ("1", " ", "words")]
)
def test_a_forgotten_clock_is_settled_with_what_it_can_have_been(
    db: None, given: str, words: str, field: str
) -> None:
    run = start(built_job())

    with pytest.raises(ValidationError) as told:
        settle_clock(run=run, hours=Decimal(given), words=words, now=EIGHT + 24 * HOUR)

    assert list(told.value.message_dict) == [field]


def test_work_that_waits_for_the_customer_starts_no_clock_and_other_work_does(db: None) -> None:
    load_shipped()
    of = built_job()
    assert of.quote is not None
    row = extra(of.quote.acceptance, "400", About(components=("clutch_friction",)))
    assert "clutch_plates_swap" in row.stops

    with pytest.raises(WaitsForAnswer, match=r"waits for the customer's answer to Q-2026-0001/1"):
        start(of, "clutch_plates_swap")

    assert start(of, "cases_split").stopped_at is None


def test_where_the_machine_is_set_back_a_running_clock_is_asked_about_like_a_forgotten_one(db: None) -> None:
    run, earlier = start(built_job()), EIGHT - HOUR

    with pytest.raises(ClockForgotten):
        stop_clock(run=run, now=earlier)
    settled = settle_clock(run=run, hours=Decimal(2), words="The machine's clock was wrong", now=earlier)

    assert (settled.stopped_at, hours()) == (EIGHT, [("head_on", Decimal("2.00"))])
