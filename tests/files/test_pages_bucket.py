"""The whole site on a bucket: what is taken in and drawn comes back by page, by link and out of a backup."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from uuid import uuid4

import pytest
from django.core.files.storage import storages
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from catalogue.models.file_bucket import Bucket
from catalogue.models.file_store import keep_bytes, kept_bytes, walk
from quotes.actions.files_moved import sweep_files
from quotes.actions.links import new_link
from quotes.management.backups.whole import back_up, restore
from quotes.models import Job, Photo, Revision, StoredFile
from quotes.queries.record.files import YOUNG, stored_files
from tests.bench.cast import built_job
from tests.cast import builder, desk
from tests.files.buckets import bucket
from tests.files.test_pages_missing import PAPER, picture
from tests.quotes.backup_places import empty_place


@pytest.fixture
def shared(server: str, monkeypatch: pytest.MonkeyPatch) -> Bucket:
    """Where the site keeps its files."""
    made = bucket(server, "workshop")
    monkeypatch.setitem(storages._storages, "default", made)  # type: ignore[attr-defined]
    return made


def photo_taken_in(client: Client, of: Job) -> Photo:
    client.force_login(builder())
    form = {"key": str(uuid4()), "front": SimpleUploadedFile("front.jpg", picture())}
    assert client.post(reverse("job-photos", args=[of.pk]), form).status_code == 302
    return Photo.objects.select_related("image", "small").get()


def papers(client: Client, revision: Revision) -> list[bytes]:
    """The quote as the desk opens it, and as the customer does."""
    client.force_login(desk())
    token = new_link(quote=revision.quote, by=desk(), now=timezone.now()).token
    addresses = (
        reverse("quote-pdf", args=[revision.quote_id, revision.index]),
        reverse("customer-pdf", args=[token]),
    )
    return [client.get(address).content for address in addresses]


@pytest.mark.django_db(transaction=True)
def test_photo_and_quote_go_into_the_bucket_and_come_out_of_it_and_of_a_backup(
    client: Client, shared: Bucket, server: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    of = built_job()
    photo = photo_taken_in(client, of)
    assert of.quote
    assert of.quote.latest
    by_desk, by_customer = papers(client, of.quote.latest)
    seen = client.get(reverse("job-photo", args=[of.pk, photo.pk]) + "?large").content

    assert by_desk == by_customer
    assert by_desk.startswith(b"%PDF")
    assert seen == kept_bytes(photo.image.place, photo.image.sha256)
    there = {*StoredFile.objects.exclude(place="").values_list("place", flat=True)}
    assert {*walk(shared)} == there
    assert len(there) >= 2
    assert [fault for found in stored_files() for fault in found] == []

    left = keep_bytes(PAPER, "ab" * 32)
    assert sweep_files(now=timezone.now()) == []
    assert sweep_files(now=timezone.now() + YOUNG + timedelta(minutes=1)) == [left]
    assert {*walk(shared)} == there

    back_up(tmp_path / "backup", database=connection.settings_dict, files=shared, now=timezone.now())
    other = bucket(server, "put-back")
    (tmp_path / "elsewhere").mkdir()
    with empty_place(tmp_path / "elsewhere") as place:
        restore(tmp_path / "backup", database=place.database, files=other)
        rows = place.rows("SELECT place, sha256 FROM quotes_storedfile WHERE place <> ''")
    monkeypatch.setitem(storages._storages, "default", other)  # type: ignore[attr-defined]
    assert {place for place, _ in rows} == there
    assert all(kept_bytes(place, sha256) for place, sha256 in rows)


@pytest.mark.django_db
def test_a_bucket_that_does_not_answer_is_said_so_and_is_soon_given_up(
    client: Client, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    nobody = Bucket(
        bucket_name="workshop",
        endpoint_url="http://127.0.0.1:9",
        region_name="us-east-1",
        access_key="of-a-test",
        secret_key="of-a-test",
    )
    monkeypatch.setitem(storages._storages, "default", nobody)  # type: ignore[attr-defined]
    of = built_job()
    client.force_login(builder())
    client.raise_request_exception = False

    form = {"key": str(uuid4()), "front": SimpleUploadedFile("front.jpg", picture())}
    answer = client.post(reverse("job-photos", args=[of.pk]), form)

    assert (answer.status_code, Photo.objects.count()) == (503, 0)
    assert b"so none can be kept or fetched" in answer.content
