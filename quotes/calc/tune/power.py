"""Power in a tune: the tier's gain on the engine type's power, or on what a dyno read."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.engine import Band
from quotes.calc.ask.request import MeasuredPower
from quotes.calc.bench.leaving.powers import KILOWATTS

WATTS_PER_KW = 1000.0
WATTS_PER_HP = float(KILOWATTS["hp"]) * WATTS_PER_KW
LEAST_SHARE, MOST_SHARE = Decimal("0.3"), Decimal("2")
"""A dyno figure outside these shares of the engine type's power is a slip: a tired engine at the back wheel
reads well above the one, a big-bore race engine well under the other. From memory."""
MOST_REVS_SHARE = Decimal("1.3")
"""Peak power at more than this share of the rev limit is a slip of the finger."""


@dataclass(frozen=True, slots=True)
class Watts:
    """Power as a band."""

    low: float
    typical: float
    high: float


def measured_w(measured: MeasuredPower) -> float:
    """A dyno figure in watts, as it was read: at the crank or the wheel, corrected or not."""
    return float(measured.figure * KILOWATTS[measured.unit]) * WATTS_PER_KW


def gained(base_w: float, gain_pct: Band, had_pct: float = 0.0) -> Watts:
    """`base_w` with a gain that is counted from the standard engine, where it has `had_pct` of it already."""
    had = 100.0 + had_pct
    return Watts(*(base_w * (100.0 + pct) / had for pct in (gain_pct.low, gain_pct.typical, gain_pct.high)))
