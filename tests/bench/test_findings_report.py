"""The findings of a job as its customer is told them."""

from __future__ import annotations

import hashlib
from decimal import Decimal

import pytest

from quotes.actions.bench.findings import withdraw_finding
from quotes.actions.bench.findings_report import findings_file, issue_findings
from quotes.actions.bench.refused import NothingFound, NotStripped
from quotes.models import FindingsReport, Job
from quotes.queries.bench.teardown.findings import findings_sheet, sheet_of_report
from tests.bench.cast import LATER, NOW, ON, job, stripped_job
from tests.bench.teardown_rows import found, read
from tests.cast import builder, desk
from tests.quotes import cast
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db


def opened() -> Job:
    """A stripped engine with a wiped rod bearing, a worn cam that serves on, and a skirt past its limit."""
    row = stripped_job(job(quote=cast.draft(cast.engine(cast.customer()))))
    load_shipped()
    found(
        row,
        "cam_pitted",
        judged="until",
        until_amount=Decimal(900),
        until_unit="mi",
        component="camshaft_intake",
    )
    found(row, "rod_bearing_wiped", judged="stop", component="rod_bearing", place="cylinder 3", cause="Oil")
    read(
        row,
        "piston",
        verdict="past",
        limit=Decimal("66.97"),
        standard_low=Decimal("67"),
        unit="mm",
        limit_source="Shop manual, page 4-12",
    )
    return Job.objects.joined().get(pk=row.pk)


def issue(row: Job) -> FindingsReport:
    return issue_findings(job=row, by=desk(), now=LATER)


def test_the_worst_stands_first_with_place_cause_and_what_it_brings() -> None:
    worst, milder = findings_sheet(opened(), 1, ON).findings
    assert (worst.judged, worst.place, worst.cause) == ("stop", "cylinder 3", "Oil")
    assert "→" in worst.chain
    assert (milder.judged, milder.until, milder.chain) == ("until", "for another 900 miles", "")


def test_metal_in_the_oil_says_where_it_may_come_from_and_what_would_show_it() -> None:
    row = opened()
    found(row, "metal_magnetic", judged="stop", component="gear_2")
    [metal] = [one for one in findings_sheet(row, 1, ON).findings if "magnet" in one.seen]
    assert "gearbox bearings" in metal.sources
    assert metal.shown_by


def test_a_reading_says_against_which_limit_it_was_held_and_whose_that_is() -> None:
    sheet = findings_sheet(opened(), 1, ON)
    [reading] = sheet.readings
    assert (reading.limit, reading.source) == ("66.97 mm", "Shop manual, page 4-12")
    assert sheet.cautions[0].startswith("The maker's service manual governs every limit.")


def test_issuing_makes_the_step_and_pressing_twice_gives_the_same_report() -> None:
    row = opened()
    report = issue(row)
    assert (report.number, Job.objects.get(pk=row.pk).step) == (f"{row.number}/F1", "findings")
    assert issue(row) == report


def test_what_was_taken_back_since_is_told_in_a_new_report_and_the_old_one_stays() -> None:
    row = opened()
    first = issue(row)
    seen = row.findings.get(finding_code="cam_pitted")
    withdraw_finding(finding=seen, because="The light was bad", by=builder(), now=NOW)
    second = issue(row)
    assert (second.index, len(sheet_of_report(second).findings)) == (2, 1)
    assert len(sheet_of_report(FindingsReport.objects.get(pk=first.pk)).findings) == 2


def test_the_paper_is_stored_once_with_its_fingerprint() -> None:
    report = issue(opened())
    file = findings_file(report=report)
    assert bytes(file.content).startswith(b"%PDF")
    assert file.sha256 == hashlib.sha256(bytes(file.content)).hexdigest()
    assert findings_file(report=FindingsReport.objects.get()) == file


def test_nothing_is_reported_before_the_strip_down_nor_where_nothing_was_found() -> None:
    row = job(quote=cast.draft(cast.engine(cast.customer())))
    load_shipped()
    with pytest.raises(NotStripped):
        issue(row)
    with pytest.raises(NothingFound, match="nothing to report"):
        issue(stripped_job(row))
