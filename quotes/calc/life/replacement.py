"""The age at which renewing a part unfailed costs least in the long run (Barlow and Proschan 1965).

A part renewed at age `T` or at its failure, whichever comes first, costs `[Cp R(T) + Cf F(T)]` over a mean
stretch of `integral R`. The least of it is where `h(T) integral R - F(T) = Cp / (Cf - Cp)`.

The life is the plain Weibull of the catalogue, without the gamma that stands over it in `Wear`: the rule is
for a life that is known. Under the gamma a part that runs on is a better part than was thought, its hazard
falls in the end, and the best rule is no longer an age. The doubt about the life is shown as a band instead:
the age moves in proportion with it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

NONE_LEFT = 0.001
"""Where fewer than this share still run at the age that costs least, there is no age worth naming."""
Never = Literal["does not wear", "costs no more", "hardly any last"]


@dataclass(frozen=True, slots=True)
class Law:
    """A life that is known: Weibull, `eta` in the unit in which ages are said."""

    eta: float
    beta: float

    def __post_init__(self) -> None:
        for name, value in (("eta", self.eta), ("beta", self.beta)):
            if not 0.0 < value < math.inf:
                raise ValueError(f"{name} is {value:g}: it must be above 0")

    def surviving(self, age: float) -> float:
        """`R(age)`: the share that still runs."""
        return math.exp(-((age / self.eta) ** self.beta))

    def mean_run(self, age: float = math.inf) -> float:
        """`integral_0^age R`: mean run until a part has failed or reached the age."""
        from scipy.special import gammainc

        whole = self.eta * math.gamma(1.0 + 1.0 / self.beta)
        if age == math.inf:
            return whole
        return float(whole * gammainc(1.0 / self.beta, (age / self.eta) ** self.beta))

    def hazard(self, age: float) -> float:
        """`h(age)`: failures per unit of use among those that have come so far."""
        return float(self.beta / self.eta * (age / self.eta) ** (self.beta - 1.0))


@dataclass(frozen=True, slots=True)
class Replacement:
    """`age` None: never for age alone, and `never` says why. Costs are per unit of use, in the long run."""

    age: float | None
    cost_rate: float
    """Renewed at that age; left until it fails, where there is none."""
    cost_rate_at_failure: float
    """Left until it fails."""
    never: Never | None = None

    @property
    def saves(self) -> float:
        """Share of the cost that renewing at that age saves against leaving it until it fails."""
        return 1.0 - self.cost_rate / self.cost_rate_at_failure


def cost_rate(law: Law, age: float, planned: float, failed: float) -> float:
    """What a unit of use costs where the part is renewed at this age for `planned`, failed for `failed`."""
    surviving = law.surviving(age)
    return (planned * surviving + failed * (1.0 - surviving)) / law.mean_run(age)


def replacement(law: Law, planned: float, failed: float) -> Replacement:
    """The age that costs least, `planned` being the cost of renewing unfailed and `failed` of a failure."""
    if not (0.0 < planned < math.inf and 0.0 < failed < math.inf):
        raise ValueError(f"costs are {planned:g} and {failed:g}: both must be above 0")
    left_alone = failed / law.mean_run()
    if failed <= planned:
        return Replacement(None, left_alone, left_alone, "costs no more")
    if law.beta <= 1.0:
        return Replacement(None, left_alone, left_alone, "does not wear")
    last = law.eta * (-math.log(NONE_LEFT)) ** (1.0 / law.beta)
    age = _root(law, planned / (failed - planned), last)
    if age is None:
        return Replacement(None, left_alone, left_alone, "hardly any last")
    return Replacement(age, cost_rate(law, age, planned, failed), left_alone)


def _root(law: Law, ratio: float, last: float) -> float | None:
    """Where the condition holds; None where it does not by `last`. It rises with age, so once at most."""
    from scipy.optimize import brentq

    def over(age: float) -> float:
        return law.hazard(age) * law.mean_run(age) - (1.0 - law.surviving(age)) - ratio

    if over(last) <= 0.0:
        return None
    return float(brentq(over, 0.0, last, xtol=1e-9 * law.eta, rtol=1e-12))
