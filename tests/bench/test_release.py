"""The hand-over: what it is refused for, what it writes down, and which ages begin anew with it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.bench.after import Reported, report_service
from quotes.actions.bench.lifed_parts import Before, Move, fit, register
from quotes.actions.bench.release_refused import (
    AgreedSince,
    AlreadyReleased,
    NoRecord,
    NotLookedOver,
    NotPaid,
    OnlyTheOwner,
    StillAsked,
)
from quotes.actions.bench.releasing import release
from quotes.actions.bench.testing import Run, keep_run
from quotes.actions.books.extra_work import About
from quotes.calc.bench.release_sheet import ReleaseSheet
from quotes.models import (
    Counter,
    Engine,
    Evidence,
    ExtraWork,
    FinalCheck,
    Job,
    Release,
    RenewedPart,
    Segment,
    TestRun,
)
from quotes.queries.bench.ages import engine_at_end
from quotes.queries.bench.way_out import money_of_job
from tests.bench.cast import LATER, built_job, job
from tests.bench.teardown_rows import read
from tests.bench.way_out_cast import GIVEN, LEAVES, closed_record, handed_over, looked_over, ready_job
from tests.books.cast import GROSS, deposited, extra_work, invoiced
from tests.books.ledger_cast import paid
from tests.cast import builder, desk, shipped
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped


@pytest.fixture
def of(db: None) -> Job:
    """A 600 four that came at 4,100 sprint miles, built mild: springs and an inlet cam new, seats cut."""
    load_shipped()
    row = built_job()
    Engine.objects.filter(pk=row.engine_id).update(history_known=True, build_cycles={})
    row.engine.segments.all().delete()
    Segment.objects.create(engine=row.engine, order=0, amount=4100, unit="mi", duty="sprint")
    RenewedPart.objects.create(engine=row.engine, component="oil_pump", at=3000, unit="mi")
    return row


def renewed(of: Job) -> dict[str, Decimal]:
    return dict(RenewedPart.objects.filter(engine=of.engine_id).values_list("component", "at"))


def test_ages_begin_anew_exactly_where_something_was_renewed(of: Job) -> None:
    check = ready_job(of).final_checks.get()

    handed_over(of)

    assert check.done
    assert renewed(of) == dict.fromkeys(check.done, Decimal(4100)) | {"oil_pump": Decimal(3000)}
    assert Engine.objects.get(pk=of.engine_id).fitted == "mild"


def test_what_was_not_fitted_after_all_keeps_its_age(of: Job) -> None:
    left = ready_job(of, but=frozenset({"valve_spring"})).final_checks.get()

    handed_over(of)

    assert "valve_spring" in left.asked
    assert "valve_spring" not in renewed(of)


def test_evidence_is_kept_of_the_age_that_was_and_not_of_the_new_one(of: Job) -> None:
    read(of, "valve_spring", verdict="within")

    handed_over(ready_job(of))

    lasted = Evidence.objects.get(component="valve_spring")
    assert (lasted.exit, lasted.outcome, lasted.tier) == (Decimal(4100), "sound", "refresh")


def test_what_intake_knew_beyond_the_record_is_run_before_the_new_lives(of: Job) -> None:
    Job.objects.filter(pk=of.pk).update(service_amount=4600, duty="sprint", service_unit="mi")

    handed_over(ready_job(of))

    assert renewed(of)["valve_spring"] == Decimal(4600)


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


def test_what_was_reported_since_the_last_hand_over_is_run_before_the_new_lives(of: Job) -> None:
    handed_over(ready_job(of))
    told = Reported(amount=Decimal(900), unit="mi", on=LEAVES.date(), name="Marel Otten", how="by telephone")
    report_service(engine=of.engine, told=told, key=uuid4(), now=LEAVES)

    back = job(engine=of.engine, now=LATER, service_amount=None, service_known="unknown", service_unit="")
    ran = engine_at_end(Job.objects.joined().get(pk=back.pk), shipped("four600")).history

    assert ran is not None
    assert [(one.amount, one.tier) for one in ran] == [(4100, "refresh"), (900, "mild")]


def test_a_part_with_its_own_age_is_out_when_a_new_one_stands_in_its_place(of: Job) -> None:
    springs = register(component="valve_spring", type_code="four600", serial="V-7", before=Before(Decimal(0)))
    Job.objects.filter(pk=of.pk).update(received_at=NOW)
    fit(part=springs, engine=of.engine, move=Move(ON - timedelta(days=30)), by=builder(), now=NOW)

    handed_over(ready_job(of))

    assert springs.stays.get().until_on == ON
    assert renewed(of)["valve_spring"] == Decimal(4100)


def test_rider_safety_that_nobody_has_answered_keeps_the_engine_here(of: Job) -> None:
    ready_job(of)
    assert of.quote is not None
    safety = About(touches=("safety",), rider_safety=True)
    extra_work(of.quote.acceptance, accepted=None, about=safety)

    with pytest.raises(StillAsked, match="waits for the customer's word"):
        handed_over(of)


def test_what_was_agreed_since_the_last_look_is_looked_at_first(of: Job) -> None:
    ready_job(of)
    assert of.quote is not None
    line = {
        "kind": "part",
        "description": "Output seal",
        "quantity": "1",
        "unit": "each",
        "unit_price": "9",
        "tax_code": "standard",
        "component": "output_seal",
    }
    ExtraWork(
        build=of.quote.acceptance,
        index=1,
        words="A seal",
        lines=[line],
        net=9,
        tax=0,
        gross=9,
        state="within",
        offered_at=NOW,
        offered_by=builder(),
    ).save()

    with pytest.raises(AgreedSince, match="output"):
        handed_over(of)
    looked_over(of)

    assert "output_seal" in renewed_after(of)


def renewed_after(of: Job) -> dict[str, Decimal]:
    handed_over(of)
    return renewed(of)


def test_a_last_look_with_a_leak_is_not_kept(of: Job) -> None:
    with pytest.raises(ValidationError, match="Mend it"):
        looked_over(of, said={"leaks": "no"})

    assert not FinalCheck.objects.exists()


def test_a_test_is_kept_once_and_begins_the_testing(of: Job) -> None:
    Job.objects.filter(pk=of.pk).update(step="assembling")
    run, key = Run("Power after", ON, (("Peak power", "86", "kW"),), "Roller 2", "ISO 1585"), uuid4()

    for _ in range(2):
        keep_run(job=of, run=run, key=key, by=builder(), now=NOW)

    assert TestRun.objects.count() == 1
    assert Job.objects.get(pk=of.pk).step == "testing"
    with pytest.raises(ValidationError, match="Neither a figure nor a word"):
        keep_run(job=of, run=replace(run, values=()), key=uuid4(), by=builder(), now=NOW)
