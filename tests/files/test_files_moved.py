"""Files in rows and in the store: moved, swept, erased, and missed where they are gone."""

from __future__ import annotations

import hashlib
from datetime import datetime, timedelta
from io import StringIO
from pathlib import Path
from shutil import copytree

import pytest
from django.core.management import CommandError, call_command
from django.db import transaction
from django.utils import timezone
from pytest_django import DjangoCaptureOnCommitCallbacks, Settings

from catalogue.actions.dropping import drop_file_later
from catalogue.models.file_store import SMALL_BYTES, file_store, walk
from quotes.actions.files_moved import sweep_files
from quotes.actions.handed_in import KEPT_FOR, drop_file, keep_file
from quotes.actions.storing import store_file
from quotes.models import CustomerFile, StoredFile
from quotes.queries.record.files import YOUNG, kept_copies, stored_files, unknown_files
from tests.cast import desk

pytestmark = pytest.mark.django_db
LARGE, SMALL = b"a photo " * SMALL_BYTES, b"a receipt"


@pytest.fixture(autouse=True)
def media(tmp_path: Path, settings: Settings) -> Path:
    settings.MEDIA_ROOT = tmp_path / "media"
    return tmp_path / "media"


def stored(content: bytes) -> StoredFile:
    return store_file(name="one", content_type="image/jpeg", content=content, now=timezone.now())


def of_before(content: bytes) -> StoredFile:
    """A row as it was written when all bytes were in rows."""
    sha256 = hashlib.sha256(content).hexdigest()
    given = {"content_type": "image/jpeg", "sha256": sha256, "made_at": timezone.now()}
    return StoredFile.objects.create(name="old", held=content, **given)


def test_what_is_large_lies_outside_and_what_is_small_in_its_row() -> None:
    large, small = stored(LARGE), stored(SMALL)
    assert (bytes(large.held), small.place) == (b"", "")
    again = StoredFile.objects.in_bulk([large.pk, small.pk])
    assert [again[large.pk].content, again[small.pk].content] == [LARGE, SMALL]
    assert (again[large.pk].is_sound, again[small.pk].is_sound) == (True, True)


def test_old_rows_are_readable_and_are_moved_once() -> None:
    old, small = of_before(LARGE), of_before(SMALL)
    assert old.content == LARGE
    said = [StringIO(), StringIO()]
    for out in said:
        call_command("move_files", stdout=out)
    assert "1 files moved" in said[0].getvalue()
    assert "0 files moved" in said[1].getvalue()
    old.refresh_from_db()
    small.refresh_from_db()
    assert (bytes(old.held), old.content, small.place) == (b"", LARGE, "")


def test_files_of_another_folder_are_fetched(media: Path, settings: Settings, tmp_path: Path) -> None:
    row = stored(LARGE)
    settings.MEDIA_ROOT = tmp_path / "new"
    settings.MEDIA_ROOT.mkdir()
    with pytest.raises(FileNotFoundError):
        assert row.content
    call_command("move_files", "--from", str(media), stdout=StringIO())
    assert row.content == LARGE


def test_what_is_gone_or_damaged_comes_back_from_a_backup_and_what_that_lacks_is_named(
    media: Path, tmp_path: Path
) -> None:
    gone, damaged, lost = stored(LARGE), stored(LARGE), stored(LARGE)
    backup = tmp_path / "backup"
    copytree(media, backup)
    for row in (gone, lost):
        (media / row.place).unlink()
    (media / damaged.place).write_bytes(b"forged")
    (backup / lost.place).unlink()
    with pytest.raises(CommandError, match=f"does not hold 1 of the files either: {lost.place}"):
        call_command("move_files", "--from", str(backup), stdout=StringIO())
    assert (gone.content, damaged.content) == (LARGE, LARGE)


def test_where_no_file_can_be_had_the_record_says_so_once(media: Path) -> None:
    stored(LARGE), stored(LARGE)
    media.rename(media.with_name("not mounted"))
    (fault,) = [str(fault) for found in stored_files() for fault in found]
    assert fault.startswith("Files outside of the database: their place: expected an answer, found ")


def test_what_no_row_names_is_told_of_and_swept_after_a_day() -> None:
    with transaction.atomic():
        left = stored(LARGE).place
        transaction.set_rollback(True)
    kept = stored(LARGE).place
    assert sweep_files(now=timezone.now()) == []
    later = timezone.now() + YOUNG + timedelta(minutes=1)
    assert unknown_files(later) == [left]
    assert sweep_files(now=later) == [left]
    assert [*walk(file_store())] == [kept]


def test_a_file_that_is_gone_or_changed_is_a_fault_of_the_record(media: Path) -> None:
    gone, changed = stored(LARGE), stored(LARGE)
    (media / gone.place).unlink()
    (media / changed.place).write_bytes(b"forged")
    faults = [str(fault) for found in stored_files() for fault in found]
    assert [fault.partition(": expected")[0] for fault in faults] == [
        f"File {gone.pk} one: its file {gone.place}",
        f"File {changed.pk} one: SHA-256 of its 6 bytes",
    ]


def test_what_is_dropped_goes_only_when_that_is_kept(
    django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks,
) -> None:
    place = stored(LARGE).place
    with django_capture_on_commit_callbacks(execute=True):
        drop_file_later(place)
        assert [*walk(file_store())] == [place]
    assert [*walk(file_store())] == []


def handed_in(content: bytes, *, at: datetime) -> CustomerFile:
    return keep_file(CustomerFile, name="list.csv", content=content, by=desk(), now=at)


def test_a_file_that_was_handed_in_lies_outside_too_and_goes_with_its_row(
    django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks,
) -> None:
    now = timezone.now()
    first = handed_in(LARGE, at=now)
    assert (bytes(first.held), CustomerFile.objects.get().content) == (b"", LARGE)
    assert unknown_files(now + YOUNG * 2) == []
    with django_capture_on_commit_callbacks(execute=True):
        handed_in(b"a later one " * SMALL_BYTES, at=now + KEPT_FOR * 2)
        drop_file(CustomerFile, pk=CustomerFile.objects.get().pk, by=desk())
    assert [*walk(file_store())] == []


def test_a_file_handed_in_before_is_moved_and_looked_at_by_verify(media: Path) -> None:
    row = handed_in(SMALL, at=timezone.now())
    sha256 = hashlib.sha256(LARGE).hexdigest()
    CustomerFile.objects.update(held=LARGE, sha256=sha256)
    call_command("move_files", stdout=StringIO())
    row.refresh_from_db()
    assert (bytes(row.held), row.content) == (b"", LARGE)
    (media / row.place).unlink()
    (fault,) = [str(fault) for found in kept_copies() for fault in found]
    assert fault.startswith(f"Customer file {row.pk} list.csv: its file {row.place}: expected {sha256}")
