"""A component's life: how fast a use wears it, and the hazard that a service adds.

Wear adds linearly (Palmgren 1924, Miner 1945). Lives are Weibull with a gamma prior on eta^-beta, so that
little evidence stays little: see DEVELOPERS.md, "Life and hazard".
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.calc.engine import Component, Driver, Duty, EngineCatalogue, Grade, LoadLaw, Tier
from quotes.calc.ask.request import Checks

Laws = Mapping[str, LoadLaw]
"""The catalogue's load laws, by cause of wear."""


def characteristic_life(reference_life: float, quantile: float, shape: float) -> float:
    """Weibull eta from the life by which the share `quantile` has failed; in the unit of the life.

    `eta = L / (-ln(1 - q))^(1/beta)`.
    """
    return float(reference_life / (-math.log1p(-quantile)) ** (1.0 / shape))


def load_strength(catalogue: EngineCatalogue, component: str, grade: Grade) -> float:
    """How much more load a part of this grade bears for the same life; stock is 1."""
    return catalogue.grade_strength.get(component, 1.0) if grade == "performance" else 1.0


def life_factor(driver: str, tune: Tier, strength: float, laws: Laws) -> float:
    """What the tune leaves of a life worn by one cause; never above 1, so a strong part gains no life."""
    factor = float(tune.life_factors.get(driver, 1.0))  # type: ignore[call-overload]
    if strength == 1.0 or driver not in laws:
        return factor
    return float(min(1.0, factor * strength ** laws[driver].exponent))


@dataclass(frozen=True, slots=True)
class WearPart:
    """One cause of wear: its share, how hard the duty is on it, and what the tune leaves of the life."""

    driver: Driver
    share: float
    severity: float
    factor: float

    @property
    def rate(self) -> float:
        return self.share * self.severity / self.factor


def wear_parts(
    component: Component, duty: Duty, tune: Tier, strength: float, laws: Laws, *, time: bool = True
) -> tuple[WearPart, ...]:
    """The causes that wear a component on a duty and tune.

    Without `time` the share worn by the calendar is left out, for use whose dates are known.
    """
    return tuple(
        WearPart(driver, share, duty.severity.get(driver, 1.0), life_factor(driver, tune, strength, laws))
        for driver, share in component.drivers.items()
        if time or driver != "time"
    )


def wear_rate(
    component: Component, duty: Duty, tune: Tier, strength: float, laws: Laws, *, time: bool = True
) -> float:
    """Reference service that one unit of this use wears; 1 at the reference duty and tune.

    `rate = sum over causes of share x severity / factor`.
    """
    return sum(part.rate for part in wear_parts(component, duty, tune, strength, laws, time=time))


def stopping_share(component: Component, checks: Checks) -> float:
    """Share of failures that stop the engine, by how the engine is looked after between meetings.

    Checked each meeting the component's own share holds; each season half of the warnings are missed;
    never looked at, every failure stops it.
    """
    own = component.stopping_share
    if checks == "each_meeting":
        return own
    if checks == "each_season":
        return own + (1.0 - own) / 2.0
    return 1.0


@dataclass(frozen=True, slots=True)
class Wear:
    """One component at the start of a service: its age and its law of failure, in reference units.

    `age` is equivalent service on the reference duty; `rate` turns a unit of the planned use into it.
    """

    age: float
    rate: float
    eta: float
    shape: float
    evidence: float
    stopping: float
    life: float

    @property
    def prior_scale(self) -> float:
        """`b` of the gamma on eta^-beta, for a part known to have run to its age."""
        return float(self.evidence * self.eta**self.shape + self.age**self.shape)

    def aged(self, age: float) -> Wear:
        """The same part at another age; written out, for it is done thousands of times in a comparison."""
        return Wear(age, self.rate, self.eta, self.shape, self.evidence, self.stopping, self.life)

    def wearing(self, rate: float) -> Wear:
        """The same part, wearing at another rate."""
        return Wear(self.age, rate, self.eta, self.shape, self.evidence, self.stopping, self.life)

    def damage(self, use: float) -> float:
        """`D = (a + d)^beta - a^beta` for `use` units of the planned service."""
        return float((self.age + self.rate * use) ** self.shape - self.age**self.shape)

    def stopping_hazard(self, use: float) -> float:
        """Cumulative hazard that it fails without warning: `a0 ln(1 + s D / b)`; adds over services."""
        before = self.age**self.shape  # stands both in D and in b: worked out once
        damage = (self.age + self.rate * use) ** self.shape - before
        scale = self.evidence * self.eta**self.shape + before
        return float(self.evidence * math.log1p(self.stopping * damage / scale))

    def use_left(self) -> float:
        """Units of the planned use until its planned life is reached; 0 where it is past."""
        return max(0.0, self.life - self.age) / self.rate if self.rate > 0 else math.inf


def age_of_peak_hazard(eta: float, shape: float, evidence: float) -> float:
    """Age up to which the hazard rises: `eta (r0 (beta - 1))^(1/beta)`; beyond it nothing is known.

    Infinite for a shape of 1 or less, where the hazard never rises.
    """
    if shape <= 1.0:
        return math.inf
    return float(eta * (evidence * (shape - 1.0)) ** (1.0 / shape))
