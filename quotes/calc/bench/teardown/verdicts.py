"""A reading held against standard, watch and limit; and whose they are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from catalogue.calc.said import to_say

Verdict = Literal["within", "watch", "past", "no_limit"]
MICROMETRE = Decimal("0.001")
"""What a share of a bore is rounded to, in mm: no manual names less."""
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
