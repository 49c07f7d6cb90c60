"""The strip-downs of the demo's earlier years, all of them before the year that it plays through."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from django.contrib.auth.models import User
from django.utils import timezone, translation

from quotes.actions.learning.by_hand import enter_all
from quotes.imports.faults import FileFault
from quotes.imports.read_evidence import read_evidence
from quotes.models import Evidence
from quotes.queries.learning.choices import evidence_names
from quotes.queries.learning.rows import Catalogues

FILE = "earlier-strip-downs.csv"


def enter_earlier(*, folder: Path, by: User, now: datetime) -> int:
    """Enter them once, in one write: how many. FileFault where the file does not hold together."""
    if Evidence.objects.filter(by__isnull=False).exists():
        return 0
    content = (folder / FILE).read_bytes()
    with translation.override("en"):  # as the file is written
        known = Catalogues()
        read = read_evidence(content, evidence_names(known), timezone.localdate(now), known)
    if read.faults:
        raise FileFault("; ".join(str(fault) for fault in read.faults))
    return enter_all(told=read.rows, by=by, now=now)
