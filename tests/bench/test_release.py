"""The hand-over: what it is refused for, what it writes down, and which ages begin anew with it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.bench.release_refused import (
    AlreadyReleased,
    NoRecord,
    NotLookedOver,
    NotPaid,
    OnlyTheOwner,
    StillAsked,
)
from quotes.actions.bench.releasing import release
from quotes.actions.bench.testing import RunResults, keep_run
from quotes.actions.books.extra_work import About
from quotes.calc.bench.leaving.release_sheet import ReleaseSheet
from quotes.models import (
    Counter,
    FinalCheck,
    Job,
    Release,
    TestRun,
)
from quotes.queries.bench.leaving.way_out import money_of_job
from tests.bench.way_out_cast import (
    GIVEN,
    LEAVES,
    closed_record,
    handed_over,
    looked_over,
    mild_four,
    ready_job,
    renewed,
)
from tests.books.cast import GROSS, deposited, extra_work, invoiced
from tests.books.ledger_cast import paid
from tests.cast import builder, desk
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped


@pytest.fixture
def of(db: None) -> Job:
    load_shipped()
    return mild_four()


def test_the_hand_over_ends_job_and_build_and_is_numbered(of: Job) -> None:
    row = handed_over(ready_job(of))

    left = Job.objects.select_related("quote__acceptance").get(pk=of.pk)
    assert row.number == "L-2026-0001"
    assert (left.step, left.left_at) == ("released", LEAVES)
    assert left.quote is not None
    assert left.quote.acceptance.done_at == LEAVES


def test_the_note_says_to_whom_what_is_new_and_how_it_is_run_in(of: Job) -> None:
    sheet = ReleaseSheet.model_validate(handed_over(ready_job(of)).sheet)

    assert (sheet.released_to, sheet.shown, sheet.seal) == ("Marel Otten", "his licence", "S-0417")
    assert (sheet.open_sum, sheet.consent_by) == (GROSS, "Orla Venn")
    assert sheet.service == "4,100 miles"
    assert sheet.card.source == "common practice, no source"
    assert sheet.dues


def test_an_engine_leaves_once(of: Job) -> None:
    handed_over(ready_job(of))

    with pytest.raises(AlreadyReleased, match="L-2026-0001"):
        handed_over(of)

    assert Release.objects.count() == 1
    assert Counter.objects.get(kind="L").value == 1


def test_nothing_leaves_without_a_closed_record_or_a_last_look(of: Job) -> None:
    with pytest.raises(NoRecord):
        handed_over(of)
    closed_record(of)
    with pytest.raises(NotLookedOver):
        handed_over(of)


def test_an_unpaid_engine_goes_by_the_owners_word_only_and_the_sum_is_named(of: Job) -> None:
    ready_job(of)

    with pytest.raises(NotPaid, match=r"EUR 3,186\.48 is still to pay"):
        handed_over(of, unpaid_consent=" ")
    with pytest.raises(OnlyTheOwner):
        release(job=of, given=GIVEN, by=desk(), now=LEAVES)

    assert money_of_job(of, ON).open_sum == GROSS
    assert not Release.objects.exists()


def test_a_refused_hand_over_leaves_everything_as_it_was(of: Job) -> None:
    ready_job(of)

    with pytest.raises(ValidationError) as told:
        handed_over(of, released_to=" ", old_parts="eaten")

    assert sorted(told.value.message_dict) == ["old_parts", "released_to"]
    assert renewed(of) == {"oil_pump": Decimal(3000)}
    assert not Counter.objects.filter(kind="L").exists()


def test_what_was_paid_or_is_held_is_taken_off_what_is_still_to_pay(of: Job) -> None:
    assert of.quote is not None
    build = of.quote.acceptance
    deposit = deposited(build)
    assert money_of_job(of, ON).open_sum == GROSS
    paid(deposit.gross)
    assert money_of_job(of, ON).open_sum == GROSS - deposit.gross
    invoiced(build)
    assert money_of_job(of, ON).open_sum == GROSS - deposit.gross
    paid(GROSS - deposit.gross)

    assert money_of_job(of, ON).open_sum == 0
    ready_job(of)
    assert release(job=of, given=GIVEN, by=desk(), now=LEAVES).unpaid_consent == ""


def test_rider_safety_that_nobody_has_answered_keeps_the_engine_here(of: Job) -> None:
    ready_job(of)
    assert of.quote is not None
    safety = About(touches=("safety",), rider_safety=True)
    extra_work(of.quote.acceptance, accepted=None, about=safety)

    with pytest.raises(StillAsked, match="waits for the customer's word"):
        handed_over(of)


def test_a_last_look_with_a_leak_is_not_kept(of: Job) -> None:
    with pytest.raises(ValidationError, match="Mend it"):
        looked_over(of, said={"leaks": "no"})

    assert not FinalCheck.objects.exists()


def test_a_test_is_kept_once_and_begins_the_testing(of: Job) -> None:
    Job.objects.filter(pk=of.pk).update(step="assembling")
    run, key = RunResults("Power after", ON, (("Peak power", "86", "kW"),), "Roller 2", "ISO 1585"), uuid4()

    for _ in range(2):
        keep_run(job=of, run=run, key=key, by=builder(), now=NOW)

    assert TestRun.objects.count() == 1
    assert Job.objects.get(pk=of.pk).step == "testing"
    with pytest.raises(ValidationError, match="Neither a figure nor a word"):
        keep_run(job=of, run=replace(run, values=()), key=uuid4(), by=builder(), now=NOW)
