"""Power before and after: compared on one dyno and by one correction only."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say, to_say

PEAK_POWER = to_say("Peak power")
DYNO = (
    to_say("the dyno is not written down for both"),
    to_say("the dyno is not the same: {before} before, {after} after"),
)
CORRECTION = (
    to_say("the correction is not written down for both"),
    to_say("the correction is not the same: {before} before, {after} after"),
)
"""Why two runs do not compare: one of them does not say it, or they say different ones."""
KILOWATTS = {"kW": Decimal(1), "hp": Decimal("0.745699872"), "PS": Decimal("0.73549875")}
"""One of each in kilowatts: mechanical horsepower (550 ft lbf/s) and metric (75 kgf m/s), by definition."""


@dataclass(frozen=True, slots=True)
class Pull:
    """A run on the dyno: what it read at its peak, on which dyno, corrected by which standard."""

    figure: Decimal
    unit: str
    dyno: str
    correction: str


@dataclass(frozen=True, slots=True)
class Compared:
    """What the power gained, in the unit of the later run; or `why` it can't be said."""

    gain: Decimal = Decimal(0)
    pct: Decimal = Decimal(0)
    unit: str = ""
    why: tuple[str, ...] = ()

    @property
    def compares(self) -> bool:
        return not self.why


def peak_of(values: Iterable[Sequence[str]], dyno: str, correction: str) -> Pull | None:
    """The pull in the values of a run: name, figure, unit; None where no peak power is in them."""
    for name, figure, unit in values:
        if name == PEAK_POWER and unit in KILOWATTS:
            return Pull(Decimal(figure), unit, dyno, correction)
    return None


def compare_powers(before: Pull, after: Pull) -> Compared:
    """The gain from one pull to the other, where they compare at all."""
    why = [*_unlike(DYNO, before.dyno, after.dyno)]
    why += _unlike(CORRECTION, before.correction, after.correction)
    if before.figure <= 0:
        why.append(say("the power before is nought"))
    if why:
        return Compared(why=tuple(why))
    was = before.figure * KILOWATTS[before.unit] / KILOWATTS[after.unit]
    gain = after.figure - was
    return Compared(gain=round_half_up(gain, 1), pct=round_half_up(100 * gain / was, 1), unit=after.unit)


def _unlike(faults: tuple[str, str], before: str, after: str) -> list[str]:
    not_for_both, not_the_same = faults
    if not before.strip() or not after.strip():
        return [say(not_for_both)]
    if _folded(before) != _folded(after):
        return [say(not_the_same, before=before, after=after)]
    return []


def _folded(words: str) -> str:
    return " ".join(words.split()).casefold()
