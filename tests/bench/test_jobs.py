"""An engine's visit, step by step."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.bench.jobs import go_on, hold, move, receive, tie_quote
from quotes.actions.bench.refused import LeaveMissing, NotInTheShop, NotTied, NoYes
from quotes.models import Job
from quotes.queries.bench.jobs import build_of
from tests.bench.cast import NOW, built_job, given, job, stripped_job
from tests.books.cast import build
from tests.cast import builder, desk, owner
from tests.quotes import cast

pytestmark = pytest.mark.django_db


def test_an_engine_that_comes_in_has_a_number_a_tag_and_its_first_step() -> None:
    row = job()
    assert (row.number, row.tag, row.step) == ("J-2026-0001", "J-2026-0001", "received")
    assert [step.step for step in row.steps.all()] == ["received"]


def test_the_same_intake_sent_twice_is_one_job() -> None:
    first = job()
    again = receive(
        engine=first.engine, customer=first.customer, given=given(), key=first.key, by=desk(), now=NOW
    )
    assert again == first
    assert Job.objects.count() == 1


def test_an_intake_that_is_refused_takes_no_number() -> None:
    engine = job().engine
    with pytest.raises(ValidationError, match="who handed the engine over"):
        job(engine=engine, brought_by=" ")
    assert job(engine=engine, tag="blue 2").number == "J-2026-0002"


def test_an_amount_of_service_says_of_what() -> None:
    with pytest.raises(ValidationError, match="4100 of what"):
        job(service_unit="")
    with pytest.raises(ValidationError, match="not known"):
        job(service_amount=None)
    assert job(service_amount=None, service_unit="", service_known="unknown").service_amount is None


def test_nothing_is_stripped_without_leave_but_by_the_owner_who_says_why() -> None:
    row = job()
    with pytest.raises(LeaveMissing):
        move(job=row, step="stripped", by=builder(), now=NOW, note="He will not mind")
    with pytest.raises(LeaveMissing):
        move(job=row, step="stripped", by=owner(), now=NOW, note=" ")
    move(job=row, step="stripped", by=owner(), now=NOW, note="The customer stood beside it")
    assert Job.objects.get().step == "stripped"


def test_nothing_is_put_together_before_a_yes() -> None:
    with pytest.raises(NoYes):
        move(job=job(), step="assembling", by=builder(), now=NOW)


def test_a_job_does_not_go_back_but_what_is_done_again_counts() -> None:
    row = stripped_job()
    move(job=row, step="assembling", by=builder(), now=NOW)
    move(job=row, step="findings", by=builder(), now=NOW)
    assert row.step == "assembling"
    move(job=row, step="testing", by=builder(), now=NOW)
    move(job=row, step="assembling", by=builder(), now=NOW)
    assert Job.objects.get(pk=row.pk).step == "assembling"


def test_a_step_that_comes_once_is_made_once() -> None:
    row = stripped_job()
    again = move(job=row, step="stripped", by=owner(), now=NOW + timedelta(days=1), note="Again")
    assert again.at == NOW
    assert row.steps.filter(step="stripped").count() == 1


def test_a_job_rests_with_its_reason_and_goes_on_where_it_was() -> None:
    row = stripped_job()
    with pytest.raises(ValidationError, match="what it waits for"):
        hold(job=row, because=" ", by=desk(), now=NOW)
    hold(job=row, because="The customer does not answer", by=desk(), now=NOW)
    assert hold(job=row, because="Still", by=desk(), now=NOW).note == "The customer does not answer"
    assert (row.step, row.hold_because) == ("stripped", "The customer does not answer")
    go_on(job=row, by=desk(), now=NOW)
    assert Job.objects.get(pk=row.pk).hold_because == ""
    assert go_on(job=row, by=desk(), now=NOW) is None


def test_an_engine_that_has_left_is_taken_in_anew() -> None:
    row = stripped_job()
    move(job=row, step="released", by=desk(), now=NOW)
    assert row.left_at == NOW
    with pytest.raises(NotInTheShop):
        move(job=row, step="assembling", by=builder(), now=NOW)
    assert job(engine=row.engine).number == "J-2026-0002"


def test_a_quote_of_the_same_engine_is_tied_once() -> None:
    row = job()
    quote = cast.draft(row.engine)
    tie_quote(job=row, quote=quote, by=desk(), now=NOW)
    assert Job.objects.get().quote == quote
    assert tie_quote(job=row, quote=quote, by=desk(), now=NOW).version == 2
    other = job(number="H4-20999")
    with pytest.raises(NotTied, match="another engine"):
        tie_quote(job=other, quote=quote, by=desk(), now=NOW)
    second = job(engine=row.engine)
    with pytest.raises(NotTied, match=row.number):
        tie_quote(job=second, quote=quote, by=desk(), now=NOW)


def test_a_job_keeps_the_quote_that_was_said_yes_to() -> None:
    row = built_job()
    with pytest.raises(NotTied, match="said yes to"):
        tie_quote(job=row, quote=cast.draft(row.engine), by=desk(), now=NOW)


def test_a_job_finds_its_build() -> None:
    yes = build()
    row = built_job(yes)
    assert build_of(row) == yes
    assert build_of(job(number="H4-20999")) is None


def test_what_came_with_it_is_kept_as_said() -> None:
    row = Job.objects.get(pk=job(service_amount=Decimal("12.5"), service_unit="h").pk)
    assert row.came_with == ["Carburettors", "Clutch cable"]
    assert row.marks[1] == ["Left case half", "L 117"]
