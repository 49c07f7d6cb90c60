"""Chances with their doubt: 20,000 seeded draws of how good each part is and how hard the season will be.

Every component has a stream for the article that stays and one for each new one after it, so that two
options are compared on the same season and the same parts. The streams depend on the component's code alone:
the same request gives the same bytes, on any machine, whatever else the catalogue holds.
"""

from __future__ import annotations

import math
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from quotes.calc.life.wear import Wear

SEASONS = 200
"""Strata of the common duty factor."""
PARTS_PER_SEASON = 100
"""Draws of the parts within each stratum: 20,000 in all."""
DRAWN = PARTS_PER_SEASON, SEASONS
"""Shape of the draws of one article: a column for each season."""
DUTY_SIGMA = 0.2
"""Spread of the common duty factor (lognormal, median 1); from memory."""
SEED = 20_260
LOW, HIGH = 0.10, 0.90
"""The band holds 8 in 10 estimates."""
NEARER = 0.5
TELL_APART = 0.80
"""Share of pairs in which one must be better before two options can be told apart."""

Draws = NDArray[np.float64]
Article = Literal["kept", "new"]


@lru_cache(maxsize=1)
def duty_factors() -> Draws:
    """Shape (SEASONS,): how much harder or easier than planned a season turns out, equally likely each."""
    quantile = NormalDist().inv_cdf
    deviations = [quantile((stratum + 0.5) / SEASONS) for stratum in range(SEASONS)]
    return np.exp(DUTY_SIGMA * np.array(deviations))


@lru_cache(maxsize=1024)
def unit_gammas(code: str, number: int, evidence: float) -> Draws:
    """Shape (PARTS_PER_SEASON, SEASONS): gamma(evidence, 1), the same for the same article for ever.

    `number` counts the articles in one place: 0 is the one that stays, 1 the first new one, 2 the next.
    They are drawn season by season and laid so that a season is a column: rows are weighed sooner.
    """
    stream = np.random.Generator(np.random.PCG64([SEED, zlib.crc32(code.encode()), number]))
    return np.ascontiguousarray(stream.gamma(evidence, size=(SEASONS, PARTS_PER_SEASON)).T)


@dataclass(frozen=True, slots=True)
class Fitted:
    """A component as it goes into the service: its wear, and whether it is a new article."""

    wear: Wear
    article: Article

    @property
    def number(self) -> int:
        """Which article of its place it is, for the draws."""
        return int(self.article == "new")


def chances(
    fitted: Mapping[str, Fitted], use: float, *, shop_factor: float = 1.0, fault_hazard: float = 0.0
) -> Draws:
    """Shape (SEASONS * PARTS_PER_SEASON,): the chance of not being stopped, for each draw.

    `use` is the planned service in its basis unit; `fault_hazard` is the sum of assembly-fault chances.
    """
    hazard, room = np.zeros(DRAWN), np.empty(DRAWN)
    for code, part in fitted.items():
        hazard += stopping_draws(code, part, use, room)
    return np.exp(-(shop_factor * hazard + fault_hazard)).T.ravel()


def stopping_draws(code: str, part: Fitted, use: float, room: Draws) -> Draws:
    """Shape DRAWN: the drawn hazard of one component, before the shop's factor; written into `room`."""
    weight = _weight(part.wear, use, duty_factors())
    return np.multiply(unit_gammas(code, part.number, part.wear.evidence), weight, out=room)


def mean_chance(
    fitted: Mapping[str, Fitted], use: float, *, shop_factor: float = 1.0, fault_hazard: float = 0.0
) -> float:
    """The mean that the draws of `chances` tend to, with the gammas integrated by hand.

    Over the parts the mean of exp(-theta w) is (1 + w / b)^-a0; what is left is the mean over the seasons.
    """
    factors = duty_factors()
    logarithm = np.full(SEASONS, -fault_hazard)
    for part in fitted.values():
        logarithm -= part.wear.evidence * np.log1p(shop_factor * _weight(part.wear, use, factors))
    return float(np.exp(logarithm).mean())


def _weight(wear: Wear, use: float, factors: Draws) -> Draws:
    """Shape of `factors`: stopping damage of one part over the prior's scale, in each season."""
    damage = (wear.age + wear.rate * use * factors) ** wear.shape - wear.age**wear.shape
    return np.asarray(wear.stopping * damage / wear.prior_scale)


def band(draws: Draws) -> tuple[float, float]:
    """The low and high chance between which 8 in 10 of the draws lie."""
    return quantiles(draws, LOW, HIGH)


def quantiles(draws: Draws, low: float, high: float) -> tuple[float, float]:
    """Two quantiles of many numbers, by the rule of `np.quantile` to the last digit in a fifth of its time.

    Numbers are parted at one place after the other: at several at once takes ten times as long.
    """
    places = [(draws.size - 1) * share for share in (low, high)]
    one, other = (math.floor(place) for place in places)
    ordered = np.partition(draws.ravel(), one)
    at, rest = float(ordered[one]), ordered[one + 1 :]
    found = _between(at, _least(rest, at), places[0] - one)
    if other > one:
        rest = np.partition(rest, other - one - 1)
        at, rest = float(rest[other - one - 1]), rest[other - one :]
    return found, _between(at, _least(rest, at), places[1] - other)


def _least(after: Draws, at: float) -> float:
    """The next in order, of what comes after a number: the number itself where nothing does."""
    return float(after.min()) if after.size else at


def _between(one: float, next_: float, share: float) -> float:
    """So much of the way from one number to the next, reckoned from the nearer."""
    step = next_ - one
    return next_ - step * (1.0 - share) if share >= NEARER else one + step * share


@dataclass(frozen=True, slots=True)
class Pairing:
    """One option held against another on the same draws; differences are chance of one less the other."""

    better_share: float
    difference: float
    low: float
    high: float

    @property
    def verdict(self) -> Literal["better", "worse", "cannot be told apart"]:
        if self.better_share >= TELL_APART:
            return "better"
        if self.better_share <= 1.0 - TELL_APART:
            return "worse"
        return "cannot be told apart"


def pair(one: Draws, other: Draws) -> Pairing:
    """Compare two options draw by draw; ties count half, so that an option can't beat itself."""
    difference = one - other
    better = float((difference > 0).mean() + 0.5 * (difference == 0).mean())
    return Pairing(better, float(difference.mean()), *quantiles(difference, LOW, HIGH))
