"""A backup is taken while people write, is whole, and goes back into an empty place only."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.db import connection, transaction
from pytest_django import Settings

from catalogue.models.file_store import Folder
from quotes.management.backups import manifest
from quotes.management.backups.whole import back_up, restore
from quotes.models import Customer, Engine, StoredFile
from tests.quotes.backup_places import Place, empty_place

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
HALF_A_MEGABYTE = 500_000


@pytest.fixture
def place(tmp_path: Path) -> Iterator[Place]:
    (tmp_path / "elsewhere").mkdir()
    with empty_place(tmp_path / "elsewhere") as place:
        yield place


@pytest.fixture
def backup(tmp_path: Path) -> Path:
    return tmp_path / "a backup"


def add_customer_with_engine(number: int) -> None:
    """Two rows that belong together: no copy may hold one without the other."""
    with transaction.atomic():
        customer = Customer.objects.create(name=f"Customer {number}", search_key="", created_at=NOW)
        Engine.objects.create(customer=customer, type_code="four600", number=f"E-{number}", search_key="")


@contextmanager
def someone_writing() -> Iterator[threading.Event]:
    """A second person adds customers all the while; the event says that one more has been added."""
    stop, added = threading.Event(), threading.Event()

    def write() -> None:
        number = 0
        while not stop.is_set():
            number += 1
            add_customer_with_engine(number)
            added.set()
        connection.close()

    writer = threading.Thread(target=write)
    writer.start()
    try:
        assert added.wait(20)
        yield added
    finally:
        stop.set()
        writer.join()


@pytest.mark.django_db(transaction=True)
def test_a_backup_taken_while_someone_writes_comes_back_whole(backup: Path, place: Place) -> None:
    # Large enough that the copy takes longer than a write.
    for number in range(20):
        content = bytes([number]) * HALF_A_MEGABYTE
        StoredFile.objects.create(
            name=f"{number}.pdf", content_type="application/pdf", sha256="", held=content, made_at=NOW
        )
    with someone_writing() as added:
        call_command("backup", backup)
        in_live_after = Customer.objects.count()
        added.clear()
        assert added.wait(20), "the writer was stopped by the backup"

    done = place.manage("restore", str(backup))

    assert done.returncode == 0, done.stderr
    [(customers,)] = place.rows("SELECT count(*) FROM quotes_customer")
    assert 1 <= customers <= in_live_after
    assert place.rows("SELECT count(*) FROM quotes_engine") == [(customers,)]
    assert place.rows("SELECT sum(length(held)) FROM quotes_storedfile") == [(20 * HALF_A_MEGABYTE,)]
    assert manifest.read(backup).counts["quotes_customer"] == customers


@pytest.mark.django_db(transaction=True)
def test_the_site_runs_on_what_was_put_back(backup: Path, place: Place) -> None:
    add_customer_with_engine(1)
    call_command("backup", backup)
    place.manage("restore", str(backup))

    migrated = place.manage("migrate", "--check")
    added = place.manage(
        "shell", "--no-imports", "-c",
        "from quotes.models import *; e = Engine.objects.get(); e.pk = None; e.number = 'E-2'; e.save()",
    )  # fmt: skip

    assert migrated.returncode == 0, migrated.stdout + migrated.stderr
    assert added.returncode == 0, added.stderr
    assert place.rows("SELECT number FROM quotes_engine ORDER BY id") == [("E-1",), ("E-2",)]


@pytest.mark.django_db(transaction=True)
def test_uploaded_files_go_along(backup: Path, place: Place, tmp_path: Path, settings: Settings) -> None:
    photograph = tmp_path / "media" / "engines" / "bore 2.jpg"
    photograph.parent.mkdir(parents=True)
    photograph.write_bytes(b"a photograph")
    settings.MEDIA_ROOT = tmp_path / "media"

    call_command("backup", backup)
    done = place.manage("restore", str(backup))

    assert done.returncode == 0, done.stderr
    assert (place.media / "engines" / "bore 2.jpg").read_bytes() == b"a photograph"


@pytest.mark.django_db(transaction=True)
def test_a_place_with_tables_is_refused_and_left_as_it_is(backup: Path) -> None:
    add_customer_with_engine(1)
    call_command("backup", backup)

    with pytest.raises(CommandError, match="has tables already"):
        call_command("restore", backup)
    assert Customer.objects.count() == 1


@pytest.mark.django_db(transaction=True)
def test_a_place_with_files_is_refused(backup: Path, place: Place) -> None:
    call_command("backup", backup)
    place.media.mkdir()
    (place.media / "kept.jpg").write_bytes(b"kept")

    done = place.manage("restore", str(backup))

    assert done.returncode == 1
    assert "holds files already" in done.stderr
    assert "Traceback" not in done.stderr
    assert (place.media / "kept.jpg").read_bytes() == b"kept"


@pytest.mark.django_db(transaction=True)
def test_a_backup_never_overwrites_another(backup: Path) -> None:
    call_command("backup", backup)
    before = manifest.read(backup)

    with pytest.raises(CommandError, match="holds something already"):
        call_command("backup", backup)
    assert manifest.read(backup) == before


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize(
    ("harm", "said"),
    [
        (lambda folder: _flip_a_byte(_database_in(folder)), "its SHA-256 differs"),
        (lambda folder: _database_in(folder).unlink(), "is missing"),
        (lambda folder: (folder / "odd").write_text("odd"), "is not named"),
        (lambda folder: (folder / manifest.NAME).write_text("{"), "is not a backup"),
        (lambda folder: _other_format(folder), "this version reads format 1 only"),
    ],
    ids=["a byte flipped", "a file gone", "a file too many", "manifest cut short", "another format"],
)
def test_a_harmed_backup_is_refused_before_anything_is_written(
    backup: Path, place: Place, harm: object, said: str
) -> None:
    call_command("backup", backup)
    assert callable(harm)
    harm(backup)

    with pytest.raises(manifest.BackupError, match=said):
        restore(backup, database=place.database, files=Folder(location=place.media))

    assert not place.media.exists()


def test_a_backup_that_fails_leaves_nothing_behind(tmp_path: Path) -> None:
    nowhere = {**connection.settings_dict, "NAME": str(tmp_path / "not" / "there")}
    with pytest.raises(manifest.BackupError, match="was not taken"):
        back_up(
            tmp_path / "backups" / "one", database=nowhere, files=Folder(location=tmp_path / "media"), now=NOW
        )
    assert list((tmp_path / "backups").iterdir()) == []


def _database_in(folder: Path) -> Path:
    [path] = folder.glob("database.*")
    return path


def _flip_a_byte(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 1
    path.write_bytes(content)


def _other_format(folder: Path) -> None:
    path = folder / manifest.NAME
    path.write_text(json.dumps({**json.loads(path.read_text()), "format": 2}))
