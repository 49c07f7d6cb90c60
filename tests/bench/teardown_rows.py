"""Readings and findings as rows, where a test is not about entering them."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from quotes.models import FindingSeen, Job, Measured
from tests.cast import builder
from tests.quotes.cast import NOW


def found(of: Job, code: str, *, judged: str = "renew", **fields: Any) -> FindingSeen:
    row = FindingSeen(job=of, finding_code=code, judged=judged, seen_at=NOW, by=builder(), **fields)
    row.save()
    return row


def read(of: Job, component: str, *, verdict: str, **fields: Any) -> Measured:
    told: dict[str, Any] = {
        "name": "skirt diameter",
        "entered": "66.95",
        "entered_unit": "mm",
        "value": Decimal("66.95"),
        "unit": "mm",
        "measured_at": NOW,
    }
    row = Measured(job=of, component=component, verdict=verdict, by=builder(), **(told | fields))
    row.save()
    return row
