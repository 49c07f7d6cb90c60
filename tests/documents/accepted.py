"""A yes to the mild build of the sample sheet."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from quotes.calc.money.accepted import AcceptedValue
from quotes.calc.sheet.issued_values import Sheet


def sample_acceptance(sheet: Sheet, **change: Any) -> AcceptedValue:
    option = sheet.comparison.option("mild")
    fields: dict[str, Any] = {
        "tier": "mild",
        "tier_name": option.name,
        "extras": (),
        "name": "Marel Otten",
        "right": "owner of the engine",
        "telephone": "000 555 0199",
        "gross": option.gross.typical,
        "limit_sum": Decimal("200.00"),
        "deposit": option.deposit,
        "accepted_at": datetime(2026, 11, 26, 9, 5, tzinfo=UTC),
        "sheet_sha256": "5e" * 32,
        "rider_safety_read": True,
    }
    return AcceptedValue(**(fields | change))
