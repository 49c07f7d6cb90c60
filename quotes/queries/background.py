"""How far work in the background has come, and what of it runs and failed."""

from __future__ import annotations

import json
import os
from dataclasses import asdict, dataclass
from pathlib import Path

from django.conf import settings
from django.db import connection

from quotes.models import BackgroundWork


@dataclass(frozen=True, slots=True)
class Progress:
    """So much of so much, and what is being done; `of` is nothing where nobody knows yet."""

    done: int = 0
    of: int = 0
    doing: str = ""


def progress_of(work: BackgroundWork) -> Progress:
    """As it was shown last."""
    kept = Progress(work.done, work.of, work.doing)
    if not work.is_open or connection.vendor != "sqlite":
        return kept
    try:
        return Progress(**json.loads(_shown(work.pk).read_text()))
    except (OSError, ValueError, TypeError):
        return kept


def show(work_id: int, now: Progress) -> None:
    """On SQLite, into a file: nobody else may write a row there while the work holds its transaction open."""
    if connection.vendor != "sqlite":
        return
    path = _shown(work_id)
    path.parent.mkdir(exist_ok=True)
    beside = path.with_suffix(f".{os.getpid()}")
    beside.write_text(json.dumps(asdict(now)))
    beside.replace(path)


def forget_shown(work_id: int) -> None:
    """It has ended, and its row says how."""
    _shown(work_id).unlink(missing_ok=True)


def _shown(work_id: int) -> Path:
    return Path(settings.DATA_DIR) / "background" / f"{work_id}.json"
