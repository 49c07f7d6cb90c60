"""A folder of backups, of which the newest stay. What the command did not make itself is never touched."""

from __future__ import annotations

import json
import re
import shutil
from datetime import UTC, datetime
from pathlib import Path

from quotes.management.backups import manifest

OWN = re.compile(r"backup-\d{8}T\d{6}Z")
GOING = re.compile(r"\.backup-\d{8}T\d{6}Z\.going")
"""What was being removed when the machine stopped."""


def name_for(now: datetime) -> str:
    """The name of a backup taken at that moment; by name they sort as by age."""
    return f"backup-{now.astimezone(UTC):%Y%m%dT%H%M%SZ}"


def keep_newest(folder: Path, keep: int, *, made: Path) -> tuple[str, ...]:
    """Remove all but the newest `keep` of the folder's own backups; `made` stays. The names removed."""
    for left in folder.iterdir():
        if GOING.fullmatch(left.name) and _is_own_folder(left):
            shutil.rmtree(left)
    own = sorted(path for path in folder.iterdir() if OWN.fullmatch(path.name) and _is_backup(path))
    old = [path for path in own[: max(0, len(own) - keep)] if path != made]
    for path in old:
        # Out of the way first: half a backup must not bear a backup's name.
        path.rename(going := path.with_name(f".{path.name}.going"))
        shutil.rmtree(going)
    return tuple(path.name for path in old)


def _is_own_folder(path: Path) -> bool:
    return path.is_dir() and not path.is_symlink()


def _is_backup(path: Path) -> bool:
    """A folder with a manifest that says it was made when its name says."""
    try:
        made_at = json.loads((path / manifest.NAME).read_text())["made_at"]
        return _is_own_folder(path) and name_for(datetime.fromisoformat(made_at)) == path.name
    except (OSError, ValueError, KeyError, TypeError):
        return False
