"""The shop's own record of engines that stopped, held against what was promised, and the factor it suggests.

An engine counts with the hazard of what it really ran, also where it stopped on the way or came back early:
then the stops of any number of engines are, in the mean, the hazard that they ran through together, whatever
their chances were (a counting process; Aalen 1978). So stops are Poisson about `factor x wear + hands`: wear
is what the factor scales, hands the faults of our own, which it does not.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

CONFIDENCE = 0.90
"""Of the interval on stops seen over stops promised, two-sided."""
LEAST_SERVICES = 20
LEAST_STOPS = 5.0
"""Before so many services, and so many stops promised or seen, the record is too short to be judged."""
LEAST_EXPECTED = 0.5
PRIOR_STOPS = 5.0
"""The catalogue's say: the factor 1 is worth so many stops promised and seen; from memory."""
BAND = (0.10, 0.90)
LEAST_FACTOR, MOST_FACTOR = 0.1, 10.0
HALVINGS = 40


@dataclass(frozen=True, slots=True)
class Watched:
    """One build whose service was told: the hazards promised over what it ran, and whether it stopped."""

    tier: str
    duty: str
    wear: float
    hands: float
    factor: float
    """The shop factor that is counted in `wear`."""
    stopped: bool

    @property
    def promised(self) -> float:
        return self.wear + self.hands


@dataclass(frozen=True, slots=True)
class Record:
    """Stops promised and seen over so many services, with the exact interval on their ratio."""

    services: int
    promised: float
    seen: int
    low: float
    high: float

    @property
    def ratio(self) -> float:
        """Stops seen for each that was promised."""
        return self.seen / self.promised if self.promised else math.nan

    @property
    def enough(self) -> bool:
        return self.services >= LEAST_SERVICES and max(self.promised, float(self.seen)) >= LEAST_STOPS

    @property
    def says_nothing(self) -> bool:
        """Half a stop was not even expected, and none was seen: a ratio would be of nothing."""
        return not self.seen and self.promised < LEAST_EXPECTED

    @property
    def more_services(self) -> int:
        """About how many more there must be before it can be judged; 0 where there are enough."""
        if self.enough:
            return 0
        short = LEAST_STOPS - max(self.promised, float(self.seen))
        each = self.promised / self.services if self.services else 0.0
        stops = math.ceil(short / each) if each and short > 0 else 0
        return max(LEAST_SERVICES - self.services, stops, 1)

    @property
    def verdict(self) -> Literal["too few", "more", "fewer", "as promised"]:
        """Whether more or fewer stopped than was promised, beyond what chance does."""
        if not self.enough:
            return "too few"
        if self.low > 1.0:
            return "more"
        return "fewer" if self.high < 1.0 else "as promised"


def record_of(watched: Sequence[Watched], confidence: float = CONFIDENCE) -> Record:
    """Promised and seen of these services."""
    promised = sum(one.promised for one in watched)
    seen = sum(one.stopped for one in watched)
    low, high = stops_between(seen, confidence)
    return Record(
        services=len(watched),
        promised=promised,
        seen=seen,
        low=low / promised if promised else 0.0,
        high=high / promised if promised else math.inf,
    )


def by_tier_and_duty(watched: Iterable[Watched]) -> dict[tuple[str, str], Record]:
    """The same by tier and duty, in the order in which they first come."""
    found: dict[tuple[str, str], list[Watched]] = {}
    for one in watched:
        found.setdefault((one.tier, one.duty), []).append(one)
    return {key: record_of(ones) for key, ones in found.items()}


def stops_between(seen: int, confidence: float = CONFIDENCE) -> tuple[float, float]:
    """The exact two-sided interval on the mean of a Poisson count (Garwood 1936), by gamma quantiles."""
    from scipy.special import gammaincinv

    outside = (1.0 - confidence) / 2.0
    low = float(gammaincinv(seen, outside)) if seen else 0.0
    return low, float(gammaincinv(seen + 1, 1.0 - outside))


@dataclass(frozen=True, slots=True)
class SuggestedFactor:
    """The factor that the record suggests, and the band that holds the true one 8 times in 10."""

    factor: float
    low: float
    high: float
    shop_weight: float
    """Share of the factor that is the shop's own record; the rest is the catalogue's 1."""


def suggested(watched: Sequence[Watched]) -> SuggestedFactor:
    """A gamma about 1 worth PRIOR_STOPS, after the record.

    With faults of our own beside the wear the posterior is a mixture of gammas, one for each number of the
    stops that wear may have caused; it is exact, and one gamma where there are no such faults.
    """
    from scipy.special import gammainc, gammaln

    wear = sum(one.wear / one.factor for one in watched)
    hands = sum(one.hands for one in watched)
    seen = sum(one.stopped for one in watched)
    rate = PRIOR_STOPS + wear
    shapes = [PRIOR_STOPS + by_wear for by_wear in range(seen + 1)]
    logs = [
        _times(by_wear, wear) + _times(seen - by_wear, hands) - gammaln(by_wear + 1)
        - gammaln(seen - by_wear + 1) + gammaln(shape) - shape * math.log(rate)
        for by_wear, shape in enumerate(shapes)
    ]  # fmt: skip
    most = max(logs)
    weights = [math.exp(each - most) for each in logs] if most > -math.inf else [1.0] + [0.0] * seen
    whole = sum(weights)

    def below(factor: float) -> float:
        return (
            float(sum(w * gammainc(s, rate * factor) for w, s in zip(weights, shapes, strict=True))) / whole
        )

    mean = sum(w * s for w, s in zip(weights, shapes, strict=True)) / whole / rate
    low, high = (_quantile(below, share) for share in BAND)
    return SuggestedFactor(_within(mean), _within(low), _within(high), shop_weight=wear / rate)


def _times(count: int, mean: float) -> float:
    """Logarithm of `mean ** count`; nought to the nought is one."""
    if not count:
        return 0.0
    return count * math.log(mean) if mean > 0.0 else -math.inf


def _quantile(below: Callable[[float], float], share: float) -> float:
    low, high = 0.0, 1.0
    while below(high) < share:
        high *= 2.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        if below(middle) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def _within(factor: float) -> float:
    return min(MOST_FACTOR, max(LEAST_FACTOR, factor))
