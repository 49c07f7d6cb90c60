"""The chance of a locked wheel or oil on the tyre, with its band, as it stands in a sentence."""

from __future__ import annotations

from catalogue.calc.said import say
from quotes.calc.sheet.chance_values import WheelLock
from quotes.calc.sheet.words import percent_band, whole_percent


def lock_in_words(lock: WheelLock) -> str:
    """Whole per cent, and the band where the sheet holds one."""
    if lock.low is None or lock.high is None:
        return whole_percent(lock.value)
    band = percent_band(lock.low, lock.high)
    return say("{percent}, likely {band},", percent=whole_percent(lock.value), band=band)


def past_ceiling_in_words(lock: WheelLock) -> str:
    """Above the ceiling; just above it where both round to the same whole per cent.

    >>> " ".join(past_ceiling_in_words(WheelLock(value=0.0512, ceiling=0.05, met=False)).split())
    'just above our ceiling of 5 %'
    >>> " ".join(past_ceiling_in_words(WheelLock(value=0.08, ceiling=0.05, met=False)).split())
    'above our ceiling of 5 %'
    """
    ceiling = whole_percent(lock.ceiling)
    if whole_percent(lock.value) == ceiling:
        return say("just above our ceiling of {ceiling}", ceiling=ceiling)
    return say("above our ceiling of {ceiling}", ceiling=ceiling)


def too_risky(lock: WheelLock, *, whole: bool) -> str:
    """The sentence for a chance above the ceiling; `whole`: it is that of the whole planned service."""
    said = {"lock": lock_in_words(lock), "past": past_ceiling_in_words(lock)}
    if whole:
        return say(
            "Parts that can lock the rear wheel or put oil on the tyre: {lock} over this service, {past}.",
            **said,
        )
    return say(
        "Parts that can lock the rear wheel or put oil on the tyre: {lock} over a stretch between openings, "
        "{past}.",
        **said,
    )
