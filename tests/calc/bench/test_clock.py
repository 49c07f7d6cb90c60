"""How long a run was, and when a clock was plainly forgotten."""

from __future__ import annotations

from datetime import datetime, timedelta
from decimal import Decimal

import pytest

from quotes.calc.bench.clock import hours_between, left_running

EIGHT = datetime.fromisoformat("2027-03-01 08:00")


@pytest.mark.parametrize(
    ("minutes", "hours"), [(0, "0"), (0.2, "0"), (0.3, "0.01"), (45, "0.75"), (100, "1.67"), (600, "10")]
)
def test_hours_are_rounded_half_up_to_the_hundredth(minutes: float, hours: str) -> None:
    assert hours_between(EIGHT, EIGHT + timedelta(minutes=minutes)) == Decimal(hours)


def test_a_clock_does_not_run_backwards() -> None:
    with pytest.raises(ValueError, match="can't be stopped"):
        hours_between(EIGHT, EIGHT - timedelta(seconds=1))


@pytest.mark.parametrize(
    ("started", "now", "forgotten"),
    [
        ("2027-03-01 08:00", "2027-03-01 18:00", False),
        ("2027-03-01 08:00", "2027-03-01 18:01", True),
        ("2027-03-01 23:50", "2027-03-02 00:05", True),
    ],
)
def test_a_clock_is_forgotten_past_midnight_or_after_ten_hours(
    started: str, now: str, forgotten: bool
) -> None:
    assert left_running(datetime.fromisoformat(started), datetime.fromisoformat(now)) is forgotten
