"""A reading held against standard, watch and limit; and whose they are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from catalogue.calc.said import say, to_say

Verdict = Literal["within", "watch", "past", "no_limit"]
MICROMETRE = Decimal("0.001")
"""What a share of a bore is rounded to, in mm: no manual names less."""
FAR_ABOVE, FAR_BELOW = 6, 4
"""Over so many times the largest of standard and limit, or under this part of the smallest: no wear does
that, but inches taken for mm are 25 times off and a slipped point ten times."""
GROWN = 2
"""What wears down never grows to so many times its size: mm taken for a share of new."""
DEFAULT_SOURCE = to_say("default, not from your manual")
VERDICT_WORDS: Mapping[Verdict, str] = {
    "within": to_say("within limits"),
    "watch": to_say("near its limit"),
    "past": to_say("past its limit"),
    "no_limit": to_say("no limit known"),
}


@dataclass(frozen=True, slots=True)
class Bounds:
    """What a reading is held against, in its kept unit. `source` says whose figures they are."""

    limit: Decimal
    bad_when: Literal["above", "below"]
    standard_low: Decimal | None = None
    standard_high: Decimal | None = None
    watch: Decimal | None = None
    source: str = DEFAULT_SOURCE

    @property
    def doubt_under(self) -> Decimal:
        """Below it a reading is most likely one in another unit."""
        least = min(self._known)
        return least / FAR_BELOW if least > 0 else least * FAR_ABOVE

    @property
    def doubt_over(self) -> Decimal:
        return max(self._known) * (FAR_ABOVE if self.bad_when == "above" else GROWN)

    @property
    def _known(self) -> list[Decimal]:
        return [each for each in (self.limit, self.standard_low, self.standard_high) if each is not None]

    def times(self, by: Decimal) -> Bounds:
        """The same for something `by` large, where the figures are shares of it."""
        return Bounds(
            limit=_scaled(self.limit, by),
            bad_when=self.bad_when,
            standard_low=None if self.standard_low is None else _scaled(self.standard_low, by),
            standard_high=None if self.standard_high is None else _scaled(self.standard_high, by),
            watch=None if self.watch is None else _scaled(self.watch, by),
            source=self.source,
        )


def _scaled(value: Decimal, by: Decimal) -> Decimal:
    return (value * by).quantize(MICROMETRE, ROUND_HALF_UP).normalize()


def verdict(value: Decimal, bounds: Bounds | None) -> Verdict:
    """At the limit itself a part still is within it; at the watch figure it is watched."""
    if bounds is None:
        return "no_limit"
    sign = 1 if bounds.bad_when == "above" else -1
    if sign * (value - bounds.limit) > 0:
        return "past"
    if bounds.watch is not None and sign * (value - bounds.watch) >= 0:
        return "watch"
    return "within"


def far_off(value: Decimal, bounds: Bounds | None) -> bool:
    """Whether a reading lies so far from standard and limit that unit and point are to be looked at again."""
    return bounds is not None and not bounds.doubt_under <= value <= bounds.doubt_over


def verdict_in_words(value: Decimal, bounds: Bounds | None) -> str:
    """Such as: past its limit; with a doubt where the figure can hardly be right."""
    words = say(VERDICT_WORDS[verdict(value, bounds)])
    return say("{verdict}; far off: is the unit right?", verdict=words) if far_off(value, bounds) else words
