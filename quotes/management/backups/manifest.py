"""What a backup says of itself: its files with their fingerprints, and how many rows of what it holds."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Literal

NAME = "manifest.json"
FORMAT = 1
Vendor = Literal["sqlite", "postgresql"]
Counts = dict[str, int]
"""Rows by table."""


class BackupError(Exception):
    """Why a backup can't be taken or put back, as a sentence for the person at the terminal."""


@dataclass(frozen=True, slots=True)
class Manifest:
    """The manifest of one backup. `files` holds a SHA-256 for each file by its path inside the backup."""

    format: int
    made_at: str
    database: Vendor
    counts: Counts
    files: dict[str, str]

    def write(self, folder: Path) -> None:
        text = json.dumps(asdict(self), indent=1, sort_keys=True)
        (folder / NAME).write_text(text + "\n")


def fingerprints(folder: Path) -> dict[str, str]:
    """SHA-256 of each file under `folder` by its path there, the manifest left out."""
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {
        path.relative_to(folder).as_posix(): _sha256(path)
        for path in files
        if path.relative_to(folder) != Path(NAME)
    }


def read(folder: Path) -> Manifest:
    """The manifest of a backup whose files are all there and unchanged; BackupError where they are not."""
    try:
        found = json.loads((folder / NAME).read_text())
        known = Manifest(**found)
    except (OSError, ValueError, TypeError) as error:
        raise BackupError(f"{folder} is not a backup: its {NAME} can't be read ({error})") from error
    if known.format != FORMAT:
        raise BackupError(f"{folder} has format {known.format}; this version reads format {FORMAT} only")
    present = fingerprints(folder)
    for name in sorted(known.files.keys() | present.keys()):
        if name not in present:
            raise BackupError(f"{name} is missing from {folder}")
        if name not in known.files:
            raise BackupError(f"{name} in {folder} is not named in its {NAME}")
        if known.files[name] != present[name]:
            raise BackupError(f"{name} in {folder} is not what was saved: its SHA-256 differs")
    return known


def _sha256(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
