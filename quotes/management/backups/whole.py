"""A backup of the whole workshop: database and files, taken in one piece and put back in one piece."""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from datetime import datetime
from pathlib import Path
from typing import Any, Protocol

import psycopg
from django.core.files.storage import Storage

from quotes.management.backups import manifest, postgresql, sqlite
from quotes.management.backups.files import copy_out, put_in, refuse_where_files_stand
from quotes.management.backups.manifest import BackupError, Counts, Manifest, Vendor

MEDIA = "media"


class Copier(Protocol):
    """What the module of each kind of database does."""

    def copy(self, database: dict[str, Any], folder: Path) -> Counts: ...
    def is_empty(self, database: dict[str, Any]) -> bool: ...
    def put_back(self, folder: Path, database: dict[str, Any]) -> Counts: ...


COPIERS: dict[Vendor, Copier] = {"sqlite": sqlite, "postgresql": postgresql}


def vendor_of(database: dict[str, Any]) -> Vendor:
    """Which of the two databases Django's settings name."""
    return "sqlite" if database["ENGINE"].endswith("sqlite3") else "postgresql"


def back_up(folder: Path, *, database: dict[str, Any], files: Storage, now: datetime) -> Manifest:
    """Writes a backup to `folder`, which must not hold anything yet, and returns its manifest.

    It is made aside and moved into place when it is complete: a folder of that name is a whole backup.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise BackupError(f"{folder} holds something already. Name a new folder for each backup.")
    folder.parent.mkdir(parents=True, exist_ok=True)
    aside = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
    try:
        vendor = vendor_of(database)
        counts = COPIERS[vendor].copy(database, aside)
        # After the database: a file is stored before the row that names it, and never changed.
        copy_out(files, aside / MEDIA)
        made = Manifest(manifest.FORMAT, now.isoformat(), vendor, counts, manifest.fingerprints(aside))
        made.write(aside)
        aside.replace(folder)
    except (sqlite3.Error, psycopg.Error, OSError) as error:
        raise BackupError(f"The backup was not taken: {error}") from error
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    return made


def restore(folder: Path, *, database: dict[str, Any], files: Storage) -> Manifest:
    """Puts a backup into an empty database and an empty place for files; refuses wherever anything stands.

    The backup's fingerprints are checked before anything is written, its row counts after.
    """
    known = manifest.read(folder)
    vendor = vendor_of(database)
    if known.database != vendor:
        raise BackupError(f"This is a backup of a {known.database} database; the settings name {vendor}.")
    if not COPIERS[vendor].is_empty(database):
        raise BackupError("The database has tables already. A backup is put back into an empty one only.")
    refuse_where_files_stand(files)
    # Before the rows that name them: what fails leaves files without rows, and never a row without its file.
    put_in(folder / MEDIA, files)
    counts = COPIERS[vendor].put_back(folder, database)
    if counts != known.counts:
        raise BackupError("The rows put back are not those that the backup counted. Do not use this copy.")
    return known
