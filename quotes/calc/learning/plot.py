"""The numbers of a probability plot: ages seen, plotting positions, and the laws drawn through them.

On its axes, the logarithm of age to the right and the logarithm of -ln(1 - F) upward, a Weibull law is a
straight line. Positions are Johnson's adjusted ranks made median ranks by Bernard: `(rank - 0.3)/(n + 0.4)`
(Abernethy, New Weibull Handbook, chapter 2; from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from quotes.calc.learning.law_band import LawBand, ages_between, law_band
from quotes.calc.life.bounds import Bounds
from quotes.calc.life.fit import Fit
from quotes.calc.life.life_data import LifeData

PointKind = Literal["failed", "past_limit"]
LineKind = Literal["catalogue", "shop", "likelihood"]

SHARE_MARKS = (0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.10, 0.20, 0.30, 0.50, 0.70, 0.90, 0.95, 0.99)
"""Shares failed at which the upright axis has a mark."""
AGE_STEPS = (1.0, 2.0, 5.0)
FINE_AGE_STEPS = (1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0)
LEAST_MARKS = 4
"""With fewer marks than these on the age axis the finer steps are taken."""
ALWAYS_SHOWN = (0.05, 0.50)
"""Of the first law the ages by which these shares have failed are always within the axes."""
LEAST_SHARE, MOST_SHARE = 0.01, 0.90
"""The upright axis reaches at least from here to there."""
ROOM = 1.15
"""How far beyond the ages seen the axis goes on, as a factor."""
AS_GOOD_AS_NEW = 1e-6
"""Last seen sound at less than this share of the age it was found at: as if never looked at."""


@dataclass(frozen=True, slots=True)
class PlotPoint:
    """One that failed, or was found past its limit, with the share of all that had failed by then."""

    age: float
    share_failed: float
    kind: PointKind
    seen_good_at: float | None = None
    """Where it was found past its limit: the age last seen good. `age` is half way to the look."""
    found_at: float | None = None


@dataclass(frozen=True, slots=True)
class PlotLine:
    """A Weibull law as a straight line; `ends` are its two ends inside the axes, as (age, share failed)."""

    kind: LineKind
    name: str
    eta: float
    beta: float
    ends: tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class ProbabilityPlot:
    """All that the drawing and its table show. Ages are reference service, in `unit`."""

    unit: str
    """In words: miles or hours."""
    points: tuple[PlotPoint, ...]
    survivors: tuple[float, ...]
    """Ages of those still sound: marked along the foot, no share of their own."""
    lines: tuple[PlotLine, ...]
    ages: tuple[float, float]
    shares: tuple[float, float]
    age_marks: tuple[float, ...]
    share_marks: tuple[float, ...]
    band: LawBand | None = None
    """Around the likeliest law, at the marks of age and between them."""


def upright(share: float) -> float:
    """Where a share failed stands on the upright axis."""
    return math.log(-math.log1p(-share))


def across(age: float) -> float:
    """Where an age stands on the axis to the right."""
    return math.log(age)


def probability_plot(
    data: LifeData,
    laws: Sequence[tuple[LineKind, str, float, float]],
    unit: str,
    likeliest: tuple[Fit, Bounds] | None = None,
) -> ProbabilityPlot:
    """The plot of some life data with laws given as (kind, name, eta, beta), the catalogue's first.

    `likeliest` is the fit of the same data, with its bounds, where a band is drawn around it.
    """
    points = plotting_positions(data)
    ages = _age_range(data, laws)
    shares = _share_range(points)
    lines = (
        PlotLine(kind, name, eta, beta, ends)
        for kind, name, eta, beta in laws
        if (ends := _ends(eta, beta, ages, shares)) is not None
    )
    marks = _age_marks(ages)
    seen = sorted({*ages_between(*ages), *marks})
    return ProbabilityPlot(
        unit=unit,
        points=points,
        survivors=tuple(sorted(data.suspensions)),
        lines=tuple(lines),
        ages=ages,
        shares=shares,
        age_marks=marks,
        share_marks=tuple(share for share in SHARE_MARKS if shares[0] <= share <= shares[1]),
        band=law_band(data, *likeliest, seen) if likeliest else None,
    )


def plotting_positions(data: LifeData) -> tuple[PlotPoint, ...]:
    """Every failure with its share failed, youngest first; one found past its limit stands half way.

    A rank rises by `(n + 1 - rank)/(1 + still at risk)`, counted among those under observation at that age,
    so that items seen late raise no rank before they were seen. Equal ages share their highest rank.
    """
    items = _items(data)
    count, rank = len(items), 0.0
    found: list[PlotPoint] = []
    failed = sorted((item for item in items if item[2] is not None), key=lambda item: item[1])
    for age, alike in groupby(failed, key=lambda item: item[1]):
        together = list(alike)
        at_risk = sum(entry < age <= left for entry, left, _ in items)
        for already in range(len(together)):
            rank += (count + 1.0 - rank) / (1.0 + max(at_risk - already, 1))
        share = min((rank - 0.3) / (count + 0.4), (count + 0.1) / (count + 0.4))
        found += [_point(age, share, interval) for _, _, interval in together if interval is not None]
    return tuple(found)


_Interval = tuple[float, float] | tuple[()]


def _items(data: LifeData) -> list[tuple[float, float, _Interval | None]]:
    """Entry, age and what became of each item: None still sound, () failed, or between which ages."""
    ends: list[tuple[float, _Interval | None]] = [(age, ()) for age in data.failures]
    ends += [(age, None) for age in data.suspensions]
    ends += [((low + high) / 2.0, (low, high)) for low, high in data.intervals]
    return [(entry, age, became) for entry, (age, became) in zip(data.entered, ends, strict=True)]


def _point(age: float, share: float, interval: _Interval) -> PlotPoint:
    if not interval:
        return PlotPoint(age, share, "failed")
    return PlotPoint(age, share, "past_limit", *interval)


def _age_range(data: LifeData, laws: Sequence[tuple[LineKind, str, float, float]]) -> tuple[float, float]:
    """All ages seen, and a stretch of the first law, with some room."""
    seen = [*data.failures, *data.suspensions]
    seen += [age for low, high in data.intervals for age in (low, high) if age > high * AS_GOOD_AS_NEW]
    seen += [age_at(share, eta, beta) for _, _, eta, beta in laws[:1] for share in ALWAYS_SHOWN]
    return min(seen) / ROOM, max(seen) * ROOM


def _share_range(points: Sequence[PlotPoint]) -> tuple[float, float]:
    least = min((LEAST_SHARE, *(point.share_failed for point in points)))
    most = max((MOST_SHARE, *(point.share_failed for point in points)))
    low = max((mark for mark in SHARE_MARKS if mark <= least), default=least)
    high = min((mark for mark in SHARE_MARKS if mark >= most), default=most)
    return low, high


def age_at(share: float, eta: float, beta: float) -> float:
    """The age by which a share has failed."""
    return float(eta * (-math.log1p(-share)) ** (1.0 / beta))


def share_at(age: float, eta: float, beta: float) -> float:
    """The share that has failed by an age."""
    return -math.expm1(-((age / eta) ** beta))


def _ends(
    eta: float, beta: float, ages: tuple[float, float], shares: tuple[float, float]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Both ends of a law inside the axes; None where it does not come through them."""
    left = max(ages[0], age_at(shares[0], eta, beta))
    right = min(ages[1], age_at(shares[1], eta, beta))
    if left >= right:
        return None
    return (left, share_at(left, eta, beta)), (right, share_at(right, eta, beta))


def _age_marks(ages: tuple[float, float]) -> tuple[float, ...]:
    marks = _marks_at(AGE_STEPS, ages)
    return marks if len(marks) >= LEAST_MARKS else _marks_at(FINE_AGE_STEPS, ages)


def _marks_at(steps: Sequence[float], ages: tuple[float, float]) -> tuple[float, ...]:
    first, last = (math.floor(math.log10(age)) for age in ages)
    marks = (step * 10.0**power for power in range(first, last + 1) for step in steps)
    return tuple(mark for mark in marks if ages[0] <= mark <= ages[1])
