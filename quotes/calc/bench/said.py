"""A day as it is said in a sentence of the bench."""

from __future__ import annotations

from datetime import date


def day(on: date) -> str:
    """Day, month and year.

    >>> day(date(2026, 12, 3))
    '3 Dec 2026'
    """
    return f"{on.day} {on:%b} {on.year}"
