"""A value as JSON holds it: sums and days as text, so that they come back as they were."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from decimal import Decimal
from typing import Any


def plain(value: Any) -> Any:
    """What JSON holds of a value; of what it can't hold, the text."""
    if value is None or isinstance(value, bool | int | str | float | list | dict):
        return value
    if isinstance(value, datetime):
        return (value.astimezone(UTC) if value.tzinfo else value).isoformat()
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Decimal):
        # As a number is written once: the same sum may come from a form and from the database.
        return format(value.normalize(), "f")
    if isinstance(value, tuple | set | frozenset):
        return [plain(one) for one in value]
    return str(value)
