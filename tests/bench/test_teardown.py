"""Readings and findings kept, corrected, taken back, and handed to the sums."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.bench.findings import FindingTold, keep_finding, withdraw_finding
from quotes.actions.bench.photos import keep_photo
from quotes.actions.bench.readings import Read, keep_reading
from quotes.actions.bench.refused import NotInTheShop
from quotes.models import FindingSeen, Job, Measured, Photo, StoredFile
from quotes.queries.bench.teardown.found import findings_of, job_line, readings_of
from tests.bench.cast import NOW, ON
from tests.bench.cast import job as a_job
from tests.cast import builder
from tests.documents.bench.test_pictures import photo as picture
from tests.shipped import load_shipped


@pytest.fixture
def of(db: None) -> Job:
    load_shipped()
    return a_job()


def read(of: Job, entered: str, unit: str = "mm", **change: Any) -> Measured:
    told = {"code": "stem_ex", "place": "cylinder 2, exhaust left"} | change
    key = told.pop("key", uuid4())
    return keep_reading(job=of, read=Read(entered, unit, **told), key=key, by=builder(), now=NOW)


def see(of: Job, judged: str = "renew", code: str = "leak_rings", **change: Any) -> FindingSeen:
    key = change.pop("key", uuid4())
    return keep_finding(job=of, seen=FindingTold(judged, code, **change), key=key, by=builder(), now=NOW)


def test_a_reading_reaches_the_sums_with_the_bound_nearest_its_limit(of: Job) -> None:
    read(of, "4.1", "thou")
    read(of, "0.93", "ratio", code="spring_length", place="cylinder 1, intake left")

    above, below = readings_of(of)

    assert (above.value, above.unit, above.standard, above.limit) == (
        Decimal("0.10414"),
        "mm",
        Decimal("0.052"),
        Decimal("0.1"),
    )
    assert (above.component, above.quantity, above.place) == (
        "valve_guide",
        "exhaust stem to guide",
        "cylinder 2, exhaust left",
    )
    assert above.limit_source == "default, not from your manual"
    assert (below.bad_when, below.standard) == ("below", Decimal("0.99"))


def test_a_further_reading_corrects_the_one_that_stood_and_both_are_kept(of: Job) -> None:
    first = read(of, "0.12")
    second = read(of, "0.05")
    third = read(of, "1.9", "thou")

    assert (second.corrects, third.corrects) == (first, second)
    assert list(Measured.objects.standing()) == [third]
    assert [one.value for one in readings_of(of)] == [Decimal("0.04826")]


def test_the_same_key_again_is_the_same_reading(of: Job) -> None:
    key = uuid4()

    assert read(of, "0.05", key=key) == read(of, "0.07", key=key)
    assert Measured.objects.get().entered == "0.05"


def test_what_the_sheet_does_not_ask_for_is_kept_without_a_limit(of: Job) -> None:
    told = {"code": "", "component": "shift_drum", "name": "track width", "place": ""}
    row = read(of, "250", "thou", **told)

    assert (row.value, row.unit, row.verdict) == (Decimal("6.35"), "mm", "no_limit")
    assert readings_of(of) == ()


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"place": "cylinder 9"}, "place"),
        ({"code": "ring_gap_top_min"}, "code"),
        ({"entered": "much"}, "entered"),
        ({"entered": "1\x00"}, "entered"),
        ({"unit": "bar"}, "unit"),
        ({"code": "", "component": "wing", "name": "span"}, "component"),
        ({"code": "", "component": "shim"}, "name"),
    ],
)
def test_what_can_not_be_kept_is_refused_at_its_field(of: Job, change: dict[str, str], field: str) -> None:
    told = {"entered": "0.05", "unit": "mm"} | change

    with pytest.raises(ValidationError) as wrong:
        read(of, told.pop("entered"), told.pop("unit"), **told)

    assert list(wrong.value.message_dict) == [field]


def test_an_engine_that_has_left_takes_no_readings(of: Job) -> None:
    Job.objects.update(left_at=NOW)

    with pytest.raises(NotInTheShop):
        read(of, "0.05")
    with pytest.raises(NotInTheShop):
        see(of)


def test_leak_down_is_read_on_one_scale(of: Job) -> None:
    read(of, "6", "%", code="leakdown_race", place="cylinder 1")

    with pytest.raises(ValidationError, match="read on the leak-down, race scale"):
        read(of, "6", "%", code="leakdown_general", place="cylinder 2")
    row = Measured.objects.get()
    assert (row.when, row.verdict) == ("as_received", "watch")


def test_findings_reach_the_sums_unless_they_serve_on_or_were_taken_back(of: Job) -> None:
    see(of, place="cylinder 3")
    see(of, "serviceable", "leak_intake")
    see(of, "until", "leak_intake", until_amount=Decimal(400), until_unit="mi")
    see(of, "renew", "", words="Dark spot", component="crankcase")
    taken_back = see(of, "stop", "leak_intake")
    withdraw_finding(finding=taken_back, because="the tester leaked", by=builder(), now=NOW)

    (only,) = findings_of(of)

    assert (only.id, only.component, only.place) == ("leak_rings", "rings", "cylinder 3")


def test_a_finding_bears_the_catalogues_cause_where_the_builder_gives_no_other(of: Job) -> None:
    assert see(of).cause == "worn or stuck rings, worn bore"
    assert see(of, cause="Dirt past the filter").cause == "Dirt past the filter"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"code": "no_such"}, "code"),
        ({"code": ""}, "words"),
        ({"code": "", "words": "spot"}, "component"),
        ({"judged": "perhaps"}, "judged"),
        ({"judged": "until"}, "until_amount"),
        ({"component": "wing"}, "component"),
    ],
)
def test_a_finding_that_says_too_little_is_refused_at_its_field(
    of: Job, change: dict[str, str], field: str
) -> None:
    with pytest.raises(ValidationError) as wrong:
        see(of, **change)

    assert field in wrong.value.message_dict


def test_a_finding_is_taken_back_once_with_its_reason(of: Job) -> None:
    row = see(of)
    with pytest.raises(ValidationError, match="say why"):
        withdraw_finding(finding=row, because=" ", by=builder(), now=NOW)

    withdraw_finding(finding=row, because="first", by=builder(), now=NOW)
    again = withdraw_finding(finding=row, because="second", by=builder(), now=NOW + timedelta(days=1))

    assert (again.withdrawn_because, again.withdrawn_at) == ("first", NOW)


def test_a_photo_is_kept_once_and_what_is_none_leaves_nothing(of: Job) -> None:
    key, finding = uuid4(), see(of)
    told: dict[str, Any] = {"job": of, "about": "finding", "by": builder(), "now": NOW, "finding": finding}

    first = keep_photo(content=picture(), key=key, **told)
    assert keep_photo(content=picture(), key=key, **told) == first
    with pytest.raises(ValidationError, match="JPEG, PNG or WebP"):
        keep_photo(content=b"GIF89a", key=uuid4(), **told)

    assert (Photo.objects.count(), StoredFile.objects.filter(content_type="image/jpeg").count()) == (1, 2)
    assert first.image.is_sound


def test_the_jobs_page_says_how_far_the_teardown_is(of: Job) -> None:
    line = job_line(of, ON)
    assert line is not None
    assert line.words == "no readings yet, no findings yet"

    read(of, "0.12")
    see(of)

    line = job_line(of, ON)
    assert line is not None
    assert line.words == "1 reading, 1 finding; 1 past its limit"
