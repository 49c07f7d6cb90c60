"""The chance of a locked wheel or oil on the tyre, with its band, as it stands in a sentence."""

from __future__ import annotations

from quotes.calc.sheet.values import WheelLock
from quotes.calc.sheet.words import percent_band, whole_percent


def lock_in_words(lock: WheelLock) -> str:
    """Whole per cent, and the band where the sheet holds one."""
    if lock.low is None or lock.high is None:
        return whole_percent(lock.value)
    return f"{whole_percent(lock.value)}, likely {percent_band(lock.low, lock.high)},"


def past_ceiling_in_words(lock: WheelLock) -> str:
    """Above the ceiling; just above it where both round to the same whole per cent.

    >>> " ".join(past_ceiling_in_words(WheelLock(value=0.0512, ceiling=0.05, met=False)).split())
    'just above our ceiling of 5 %'
    >>> " ".join(past_ceiling_in_words(WheelLock(value=0.08, ceiling=0.05, met=False)).split())
    'above our ceiling of 5 %'
    """
    ceiling = whole_percent(lock.ceiling)
    just = "just " if whole_percent(lock.value) == ceiling else ""
    return f"{just}above our ceiling of {ceiling}"
