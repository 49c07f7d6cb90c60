"""The pages of the strip-down: the sheet by plain posts, what a tablet sends, limits, instruments, photos."""

from __future__ import annotations

import json
from datetime import timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.bench.findings import FindingTold, keep_finding
from quotes.actions.bench.jobs import move
from quotes.actions.links import new_link
from quotes.models import FindingSeen, Job, Measured, Photo
from tests.bench.cast import job as a_job
from tests.bench.cast import stripped_job
from tests.books.page_forms import text_of
from tests.cast import builder, desk, person
from tests.documents.bench.test_pictures import photo as picture
from tests.shipped import load_shipped


@pytest.fixture
def of(db: None) -> Job:
    load_shipped()
    return a_job()


@pytest.fixture
def at_bench(client: Client, of: Job) -> Client:
    client.force_login(builder())
    return client


def sheet(of: Job) -> str:
    return reverse("teardown", args=[of.pk])


def take(client: Client, of: Job, *entries: dict[str, Any]) -> Any:
    body = json.dumps({"entries": list(entries)})
    return client.post(reverse("teardown-take", args=[of.pk]), body, content_type="application/json").json()


def reading(**change: Any) -> dict[str, Any]:
    told = {"code": "stem_ex", "place": "cylinder 2, exhaust left", "entered": "3,5", "unit": "thou"}
    return {"kind": "reading", "key": str(uuid4()), **told, **change}


def finding(**change: Any) -> dict[str, Any]:
    return {"kind": "finding", "key": str(uuid4()), "code": "leak_rings", "judged": "renew", **change}


def test_the_sheet_stands_in_the_order_of_the_strip_down(at_bench: Client, of: Job) -> None:
    page = text_of(at_bench.get(sheet(of)))

    order = [
        "Leak-down, general scale",
        "Lobe height lost",
        "Top ring end gap",
        "Plate warp",
        "Main oil clearance",
    ]
    places = [page.index(one) for one in order]
    assert places == sorted(places)
    assert "limit 0.1 mm. Default, not from your manual." in page


def test_a_plain_post_keeps_one_group_and_is_kept_once(at_bench: Client, of: Job) -> None:
    form = {"key": str(uuid4()), "unit:stem_ex": "thou", "r:stem_ex:2": "3,5", "r:stem_ex:3": ""}

    at_bench.post(sheet(of), form)
    at_bench.post(sheet(of), form)

    row = Measured.objects.get()
    assert (row.place, row.entered, row.entered_unit) == ("cylinder 2, exhaust left", "3,5", "thou")
    assert (row.value, row.unit, row.verdict) == (Decimal("0.0889"), "mm", "watch")
    assert "near its limit" in text_of(at_bench.get(sheet(of)))


def test_a_plain_post_with_a_fault_keeps_the_rest_and_what_was_typed(at_bench: Client, of: Job) -> None:
    form = {"key": str(uuid4()), "unit:stem_ex": "mm", "r:stem_ex:0": "0.02", "r:stem_ex:1": "0.0x4"}

    page = at_bench.post(sheet(of), form)

    assert b"&#x27;0.0x4&#x27; can&#x27;t be taken: a figure such as 0.05 or 0,05." in page.content
    assert b'value="0.0x4"' in page.content
    assert Measured.objects.get().entered == "0.02"


def test_a_figure_read_in_another_unit_never_stands_under_the_one_picked(at_bench: Client, of: Job) -> None:
    take(at_bench, of, reading(), reading(place="cylinder 2, exhaust right", entered="0.05", unit="mm"))

    page = at_bench.get(sheet(of)).content.decode()

    assert 'data-read="3,5" data-unit="thou"' in page
    assert 'value="3,5"' not in page


def test_what_is_sent_twice_is_kept_once(at_bench: Client, of: Job) -> None:
    entry, seen = reading(), finding()

    first = take(at_bench, of, entry, seen)
    again = take(at_bench, of, entry, seen)

    assert [one["key"] for one in first["kept"]] == [entry["key"], seen["key"]]
    assert first["kept"] == again["kept"]
    assert (Measured.objects.count(), FindingSeen.objects.count()) == (1, 1)


def test_what_was_kept_offline_bears_the_time_at_which_it_was_read(at_bench: Client, of: Job) -> None:
    take(at_bench, of, reading(age=30 * 60_000))

    ago = timezone.now() - Measured.objects.get().measured_at
    assert timedelta(minutes=29) < ago < timedelta(minutes=31)


def test_one_entry_that_is_refused_holds_no_other_up(at_bench: Client, of: Job) -> None:
    answer = take(at_bench, of, reading(unit="psi"), {"kind": "nothing", "key": "k"}, reading())

    assert len(answer["kept"]) == 1
    words = {one["field"]: one["words"] for one in answer["refused"]}
    assert words["unit"] == "'psi' can't be taken: one of mm, thou, in, µm."
    assert len(words) == 2


@pytest.mark.parametrize(
    "body",
    [
        "",
        "[]",
        "null",
        '{"entries": 3}',
        '{"entries": [[]]}',
        '{"entries": [null]}',
        '{"entries":' + "[" * 9000,
    ],
    ids=["nothing", "list", "null", "number", "list in it", "null in it", "deep"],
)
def test_what_can_not_be_read_is_answered_and_not_kept(at_bench: Client, of: Job, body: str) -> None:
    address = reverse("teardown-take", args=[of.pk])

    assert at_bench.post(address, body, content_type="application/json").status_code in (200, 400)
    assert not Measured.objects.exists()


def test_a_photo_goes_with_its_finding_once(at_bench: Client, of: Job) -> None:
    seen, key = finding(), str(uuid4())
    take(at_bench, of, seen)
    address = reverse("teardown-take", args=[of.pk])

    for _ in range(2):
        file = SimpleUploadedFile("photo.jpg", picture(2000, 1000, turned=6))
        at_bench.post(address, {"key": key, "finding": seen["key"], "photo": file})

    kept = Photo.objects.get()
    assert str(kept.finding.key if kept.finding else "") == seen["key"]
    assert at_bench.get(reverse("photo", args=[kept.pk]))["Content-Type"] == "image/jpeg"


def test_a_photo_whose_finding_is_not_kept_is_refused(at_bench: Client, of: Job) -> None:
    file = SimpleUploadedFile("photo.jpg", picture())
    told = {"key": str(uuid4()), "finding": str(uuid4()), "photo": file}

    answer = at_bench.post(reverse("teardown-take", args=[of.pk]), told).json()

    assert answer["refused"][0]["words"] == "The finding that it shows is not kept."


def test_after_signing_in_anew_the_tablet_gets_a_token_that_holds(of: Job) -> None:
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(builder())
    address = reverse("teardown-take", args=[of.pk])
    body = json.dumps({"entries": [reading()]})

    assert strict.post(address, body, content_type="application/json").status_code == 403
    token = strict.get(address).json()["token"]
    sent = strict.post(address, body, content_type="application/json", headers={"X-CSRFToken": token})

    assert len(sent.json()["kept"]) == 1


def test_a_finding_and_its_photo_by_a_plain_post_and_taken_back(at_bench: Client, of: Job) -> None:
    form = {
        "judging": "1",
        "key": str(uuid4()),
        "code": "leak_rings",
        "judged": "companions",
        "place": "cylinder 3",
        "photo": SimpleUploadedFile("p.jpg", picture()),
    }
    at_bench.post(sheet(of), form)
    row = FindingSeen.objects.get()
    assert row.cause == "worn or stuck rings, worn bore"
    assert row.photos.count() == 1

    at_bench.post(sheet(of), {"withdraw": str(row.key), "because": ""})
    assert FindingSeen.objects.standing().exists()
    at_bench.post(sheet(of), {"withdraw": str(row.key), "because": "the tester leaked"})

    assert "Taken back by" in text_of(at_bench.get(sheet(of)))
    assert not FindingSeen.objects.standing().exists()


def test_a_refused_finding_says_what_is_missing_and_keeps_what_was_typed(at_bench: Client, of: Job) -> None:
    page = at_bench.post(sheet(of), {"judging": "1", "words": "dark spot", "judged": "renew"})

    assert "say which part it is" in text_of(page)
    assert b">dark spot</textarea>" in page.content


def test_a_customer_sees_the_photo_of_a_finding_once_it_was_issued(client: Client, db: None) -> None:
    load_shipped()
    of = stripped_job()
    now = timezone.now()
    row = keep_finding(job=of, seen=FindingTold("renew", "leak_rings"), key=uuid4(), by=builder(), now=now)
    client.force_login(builder())
    told = {"key": str(uuid4()), "finding": str(row.key), "photo": SimpleUploadedFile("p.jpg", picture())}
    client.post(reverse("teardown-take", args=[of.pk]), told)
    client.logout()
    assert of.quote is not None
    token = new_link(quote=of.quote, by=desk(), now=now)
    address = reverse("customer-photo", args=[token.token, Photo.objects.get().pk])

    assert client.get(address).status_code == 404
    move(job=of, step="findings", by=builder(), now=now + timedelta(minutes=5))
    assert client.get(address)["Content-Type"] == "image/jpeg"
    assert client.get(reverse("photo", args=[Photo.objects.get().pk])).status_code == 302
    client.force_login(person("books"))
    assert client.get(reverse("photo", args=[Photo.objects.get().pk])).status_code == 200


@pytest.mark.parametrize("many", [1, 20])
def test_the_sheet_takes_the_same_queries_for_one_and_twenty(
    at_bench: Client, of: Job, many: int, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    places = [f"cylinder {one}, {side}" for one in range(1, 5) for side in ("exhaust left", "exhaust right")]
    take(
        at_bench,
        of,
        *[reading(place=places[one % 8]) for one in range(many)],
        *[finding() for _ in range(many)],
    )
    at_bench.get(sheet(of))

    with django_assert_max_num_queries(15):
        at_bench.get(sheet(of))
