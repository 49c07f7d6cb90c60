"""A life with its law: the reference life, its range, and the Weibull law behind it."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from catalogue.calc.engine import Basis, Component
from quotes.calc.learning.plot import age_at
from quotes.calc.life.experience import LearntLife
from quotes.calc.life.wear import characteristic_life

BAND = 0.80
"""The range of a learnt life, as of every band on the site."""


@dataclass(frozen=True, slots=True)
class LifeLaw:
    """One life on one basis. `life` is the age by which the share `quantile` has failed."""

    low: float
    life: float
    high: float
    eta: float
    shape: float
    evidence: float
    quantile: float

    def life_of(self, eta: float) -> float:
        """The reference life that goes with another characteristic life."""
        return age_at(self.quantile, eta, self.shape)

    def as_json(self) -> dict[str, float]:
        return asdict(self)

    def same_as(self, other: LifeLaw) -> bool:
        """Whether nothing that a page shows differs."""
        return all(
            abs(a - b) <= 1e-9 * max(abs(a), abs(b), 1.0)
            for a, b in ((self.life, other.life), (self.shape, other.shape), (self.evidence, other.evidence))
        )


def law_of(component: Component, basis: Basis, quantile: float) -> LifeLaw:
    """The law that the sums take for a component on a basis."""
    life, shape = component.lives[basis], component.shape_on(basis)
    return LifeLaw(
        low=life.low,
        life=life.typical,
        high=life.high,
        eta=characteristic_life(life.typical, quantile, shape),
        shape=shape,
        evidence=component.evidence_on(basis),
        quantile=quantile,
    )


def learnt_law(learnt: LearntLife, quantile: float) -> LifeLaw:
    """The law of a learnt life; its range holds the true one in 8 of 10."""
    low, high = learnt.band(BAND)
    return law_from(learnt.eta, learnt.beta, learnt.evidence, quantile, low, high)


def law_from(
    eta: float, shape: float, evidence: float, quantile: float, eta_low: float, eta_high: float
) -> LifeLaw:
    """A law by its characteristic life and the range of that."""
    return LifeLaw(
        low=min(age_at(quantile, eta_low, shape), age_at(quantile, eta, shape)),
        life=age_at(quantile, eta, shape),
        high=max(age_at(quantile, eta_high, shape), age_at(quantile, eta, shape)),
        eta=eta,
        shape=shape,
        evidence=evidence,
        quantile=quantile,
    )


def catalogue_weight(catalogue: LifeLaw, now: LifeLaw) -> float:
    """How much of the mean hazard is the catalogue's; the rest is the shop's own.

    A life that was learnt stands on `evidence x eta^shape` of service to the power of the shape, of which the
    catalogue brought `r0 eta0^shape`. A shape of the shop's own leaves the catalogue nothing.
    """
    if now.shape != catalogue.shape:
        return 0.0
    return min(1.0, float(catalogue.evidence / now.evidence * (catalogue.eta / now.eta) ** catalogue.shape))
