"""Where files are kept: the same is asked of a folder and of a bucket on a server that speaks S3."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from botocore.exceptions import ReadTimeoutError
from django.core.files.base import ContentFile
from django.core.files.storage import Storage, storages

from catalogue.models import file_bucket
from catalogue.models.file_store import (
    DamagedFile,
    Folder,
    StoreSilent,
    drop_bytes,
    keep_bytes,
    kept_bytes,
    walk,
)
from quotes.management.backups.files import copy_out, put_in, refuse_where_files_stand
from quotes.management.backups.manifest import BackupError
from tests.files.buckets import bucket

PAPER = b"%PDF-1.7 a paper " * 1000
SHA256 = hashlib.sha256(PAPER).hexdigest()


@pytest.fixture(params=["folder", "bucket"])
def store(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Storage:
    if request.param == "folder":
        made: Storage = Folder(location=tmp_path / "media")
    else:
        made = bucket(request.getfixturevalue("server"), f"papers-{tmp_path.name.replace('_', '-')}"[:60])
    monkeypatch.setitem(storages._storages, "default", made)  # type: ignore[attr-defined]
    return made


def test_what_was_kept_is_read_as_it_was_and_each_row_has_its_own(store: Storage) -> None:
    first, second = keep_bytes(PAPER, SHA256), keep_bytes(PAPER, SHA256)
    assert first.startswith(f"{SHA256[:2]}/{SHA256}-")
    assert kept_bytes(first, SHA256) == PAPER
    drop_bytes([first])
    assert [*walk(store)] == [second]
    assert kept_bytes(second, SHA256) == PAPER


def test_what_is_gone_or_was_changed_is_never_handed_out(store: Storage) -> None:
    place = keep_bytes(PAPER, SHA256)
    store.delete(place)
    with pytest.raises(FileNotFoundError):
        kept_bytes(place, SHA256)
    store.save(place, ContentFile(b"%PDF forged"))
    with pytest.raises(DamagedFile, match="its SHA-256 differs"):
        kept_bytes(place, SHA256)
    drop_bytes([place, place])


def test_a_backup_takes_every_file_along_and_puts_it_into_an_empty_place_only(
    store: Storage, tmp_path: Path
) -> None:
    places = sorted(keep_bytes(PAPER, SHA256) for _ in range(3))
    copy_out(store, tmp_path / "backup")
    with pytest.raises(BackupError, match="holds files already"):
        refuse_where_files_stand(store)
    drop_bytes(places)
    refuse_where_files_stand(store)
    put_in(tmp_path / "backup", store)
    assert sorted(walk(store)) == places
    assert kept_bytes(places[0], SHA256) == PAPER


def test_a_disk_that_is_full_leaves_no_half_of_a_file(tmp_path: Path) -> None:
    class Full(BytesIO):
        def chunks(self) -> Iterator[bytes]:
            yield PAPER
            raise OSError(28, "No space left on device")

    folder = Folder(location=tmp_path)
    with pytest.raises(OSError, match="No space left"):
        folder._save("ab/paper", Full())
    assert [*walk(folder)] == []


def test_a_bucket_that_let_one_wait_in_vain_is_left_alone_for_a_moment(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    now = [1000.0]
    monkeypatch.setattr(file_bucket, "monotonic", lambda: now[0])
    monkeypatch.setattr(file_bucket.Silence, "until", 0.0)
    with pytest.raises(StoreSilent, match="timeout"), file_bucket.answering("ab/one"):
        raise ReadTimeoutError(endpoint_url="http://bucket")
    with pytest.raises(StoreSilent, match="a moment ago"), file_bucket.answering("ab/two"):
        pytest.fail("it was asked all the same")
    now[0] += file_bucket.LEFT_ALONE_SECONDS
    with file_bucket.answering("ab/two"):
        pass
