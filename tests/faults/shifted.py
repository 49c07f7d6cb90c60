"""The site on a machine whose clock is wrong by FAULTS_SHIFT_HOURS, for the walk of `tests.faults.twice`."""

from __future__ import annotations

import os
from datetime import datetime, timedelta

from django.utils import timezone

_right = timezone.now
_wrong_by = timedelta(hours=float(os.environ.get("FAULTS_SHIFT_HOURS", "0")))


def now() -> datetime:
    """What the machine believes."""
    return _right() + _wrong_by


timezone.now = now

from quotes.wsgi import application  # noqa: E402

__all__ = ["application"]
