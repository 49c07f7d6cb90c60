"""Writing the assembly record of a build: entries, checks, concessions and the close."""

from __future__ import annotations

from datetime import timedelta
from typing import Any
from uuid import UUID, uuid4

import pytest
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError

from quotes.actions.bench.record import Written, close_record, concede, keep_entry
from quotes.actions.bench.record_refused import OnlyTheOwner, RecordClosed, RecordNotComplete, RecordWaits
from quotes.actions.bench.refused import NoYes
from quotes.calc.bench.assembly.sheet import RecordSheet
from quotes.models import AssemblyEntry, Concession, IssuedForGood, Job
from quotes.queries.bench.assembly.record import job_line, job_record
from tests.bench.cast import NOW, ON, built_job, job, recorded, written_down
from tests.bench.parts_cast import real_build
from tests.bench.teardown_rows import read
from tests.books.cast import extra_work
from tests.cast import builder, owner
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db
SOON = NOW + timedelta(minutes=5)


@pytest.fixture
def of(db: None) -> Job:
    load_shipped()
    return built_job()


@pytest.fixture
def full_power(db: None) -> Job:
    load_shipped()
    return built_job(real_build(tier="full"))


def write(
    of: Job,
    requirement: str,
    entered: str = "",
    *,
    by: User | None = None,
    key: UUID | None = None,
    **more: Any,
) -> AssemblyEntry:
    return keep_entry(
        job=of,
        written=Written(requirement, entered=entered, **more),
        key=key or uuid4(),
        by=by or builder(),
        now=SOON,
    )


def let_pass(of: Job, requirement: str, words: str, *, by: User | None = None, place: str = "") -> Concession:
    return concede(
        job=of, requirement=requirement, place=place, words=words, key=uuid4(), by=by or owner(), now=SOON
    )


def spots(of: Job) -> set[tuple[str, str]]:
    return {(one.requirement.code, one.place) for one in job_record(of).lacks()}


def test_an_entry_is_kept_once_however_often_it_is_sent(of: Job) -> None:
    key = uuid4()
    assert write(of, "case_torque", "10 Nm + 90°", key=key) == write(of, "case_torque", "other", key=key)
    assert AssemblyEntry.objects.get().entered == "10 Nm + 90°"


def test_a_figure_is_kept_as_it_was_read_and_held_to_its_limits(full_power: Job) -> None:
    place = "main journal 2"
    row = write(full_power, "main_clearance", "2", unit="thou", place=place)
    assert (row.entered, row.entered_unit, str(row.value)) == ("2", "thou", "0.050800")
    assert row.within is False
    assert ("main_clearance", place) in spots(full_power)
    better = write(full_power, "main_clearance", "0.035", unit="mm", place=place)
    assert (better.within, better.corrects) == (True, row)
    assert ("main_clearance", place) not in spots(full_power)


@pytest.mark.parametrize(
    ("requirement", "fields", "field", "words"),
    [
        (
            "main_clearance",
            {"entered": "tight", "unit": "mm", "place": "main journal 1"},
            "entered",
            "figure",
        ),
        (
            "main_clearance",
            {"entered": "0.03", "unit": "bar", "place": "main journal 1"},
            "unit",
            "one of mm",
        ),
        (
            "main_clearance",
            {"entered": "0.03", "unit": "mm", "place": "journal 9"},
            "place",
            "main journal 5",
        ),
        ("new_con_rod", {}, "part_number", "a part number or a batch"),
        ("case_torque", {"entered": " "}, "entered", "Nothing is given"),
        ("wings", {"entered": "2"}, "requirement", "nothing that this build's record asks for"),
    ],
)
def test_what_can_not_be_taken_is_refused_at_its_field(
    full_power: Job, requirement: str, fields: dict[str, Any], field: str, words: str
) -> None:
    with pytest.raises(ValidationError) as wrong:
        write(full_power, requirement, **fields)
    assert words in wrong.value.message_dict[field][0]
    assert not AssemblyEntry.objects.exists()


def test_what_is_taken_back_is_missing_again(of: Job) -> None:
    write(of, "gears_select")
    assert ("gears_select", "") not in spots(of)
    write(of, "gears_select", taken_back=True)
    assert ("gears_select", "") in spots(of)


def test_nobody_checks_his_own_work(of: Job) -> None:
    with pytest.raises(ValidationError, match="write down first"):
        write(of, "second_cam_timing", by=owner())
    write(of, "timing_marks")
    with pytest.raises(ValidationError, match="another person"):
        write(of, "second_cam_timing")
    write(of, "second_cam_timing", by=owner())
    assert ("second_cam_timing", "") not in spots(of)


def test_a_worn_part_that_stays_is_not_measured_twice(full_power: Job) -> None:
    assert ("pump_tip", "") in spots(full_power)
    read(full_power, "oil_pump", verdict="within", quantity="oil_pump_tip", when="stripped", entered="0.1")
    assert ("pump_tip", "") not in spots(full_power)


def test_only_the_owner_lets_something_pass_and_says_why(of: Job) -> None:
    with pytest.raises(OnlyTheOwner):
        let_pass(of, "rotor_bolt", "Fine", by=builder())
    with pytest.raises(ValidationError, match="write why"):
        let_pass(of, "rotor_bolt", " ")
    let_pass(of, "rotor_bolt", "Done up by hand, marked, wrench away for its check")
    assert ("rotor_bolt", "") not in spots(of)


def test_a_record_with_something_missing_stays_open_and_says_what(of: Job) -> None:
    write(of, "gears_select")
    with pytest.raises(RecordNotComplete) as refused:
        close_record(job=of, by=builder(), now=SOON)
    assert len(refused.value.lacks) == len(job_record(of).lacks())
    assert "Crankshaft, turns free, cases joined: nothing is written" in refused.value.lacks


def test_while_the_customer_is_asked_about_more_work_the_record_stays_open(of: Job) -> None:
    assert of.quote
    written_down(of)
    extra_work(of.quote.acceptance, accepted=None)
    with pytest.raises(RecordWaits, match="waits for the customer's answer"):
        close_record(job=of, by=builder(), now=SOON)


def test_without_a_yes_there_is_no_record(db: None) -> None:
    load_shipped()
    row = job()
    assert not job_record(row).requirements
    with pytest.raises(NoYes):
        close_record(job=row, by=builder(), now=SOON)


def test_a_closed_record_is_kept_as_it_was_and_takes_nothing_more(of: Job) -> None:
    record = recorded(of)
    sheet = RecordSheet.model_validate(record.sheet)
    assert [part.name for part in sheet.parts][:1] == ["crankshaft"]
    assert close_record(job=of, by=owner(), now=SOON) == record
    assert Job.objects.get(pk=of.pk).step == "testing"
    with pytest.raises(RecordClosed):
        write(of, "gears_select")
    with pytest.raises(RecordClosed):
        let_pass(of, "rotor_bolt", "Too late")
    record.sheet_sha256 = "0" * 64
    with pytest.raises(IssuedForGood):
        record.save()


def test_the_owners_word_stands_in_the_closed_record(of: Job) -> None:
    written_down(of, but="rotor_bolt")
    let_pass(of, "rotor_bolt", "Wrench away for its check")
    sheet = RecordSheet.model_validate(close_record(job=of, by=builder(), now=SOON).sheet)
    assert [one.words for one in sheet.concessions] == ["Wrench away for its check"]


def test_the_jobs_page_says_how_far_the_record_is(of: Job) -> None:
    line = job_line(of, ON)
    assert line is not None
    assert line.words.endswith("entries missing")
    recorded(of)
    line = job_line(of, ON)
    assert line is not None
    assert line.words.startswith("closed on")
