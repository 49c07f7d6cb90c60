"""A SQLite database: its copy under writers, and the copy put into an empty place."""

from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from quotes.management.backups.manifest import BackupError, Counts

FILE = "database.sqlite3"


def copy(database: dict[str, Any], folder: Path) -> Counts:
    """Copies the database into `folder` as of one moment, while others may write, and checks the copy.

    The file alone would be no backup: what was written last stands in its write-ahead log.
    """
    target = folder / FILE
    with closing(sqlite3.connect(database["NAME"], timeout=60)) as source:
        source.execute("VACUUM INTO ?", [str(target)])
    counts = _counts_of_sound(target)
    with target.open("rb+") as file:
        os.fsync(file.fileno())
    return counts


def is_empty(database: dict[str, Any]) -> bool:
    """Whether there is no table, or no file yet."""
    path = Path(database["NAME"])
    if not path.exists():
        return True
    with closing(sqlite3.connect(path)) as connection:
        return not _tables(connection)


def put_back(folder: Path, database: dict[str, Any]) -> Counts:
    """Puts the copy in the database's place, whole or not at all, and counts what is there then."""
    target = Path(database["NAME"])
    target.parent.mkdir(parents=True, exist_ok=True)
    aside = target.with_name(target.name + ".restoring")
    shutil.copyfile(folder / FILE, aside)
    counts = _counts_of_sound(aside)
    for leftover in ("-wal", "-shm"):
        target.with_name(target.name + leftover).unlink(missing_ok=True)
    aside.replace(target)
    return counts


def _tables(connection: sqlite3.Connection) -> list[str]:
    rows = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
    )
    return sorted(name for (name,) in rows)


def _counts_of_sound(path: Path) -> Counts:
    with closing(sqlite3.connect(path)) as connection:
        [(verdict,)] = connection.execute("PRAGMA integrity_check(1)").fetchall()
        if verdict != "ok":
            raise BackupError(f"{path} is damaged: {verdict}")
        if broken := connection.execute("PRAGMA foreign_key_check").fetchone():
            raise BackupError(f"{path} is damaged: a row of {broken[0]} points at nothing")
        return {
            # A name out of the database itself.
            name: connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]  # noqa: S608
            for name in _tables(connection)
        }
