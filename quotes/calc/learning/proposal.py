"""A change of a life, proposed to the owner: what stood, what the evidence makes of it, and in words why.

Nothing here changes anything: see `actions.learning`.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from catalogue.calc.approved_lives import ApprovedLife
from catalogue.calc.engine import Basis
from catalogue.calc.said import say, say_figure
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.learning.law import LifeLaw, catalogue_weight, law_from, learnt_law
from quotes.calc.learning.seen import Counts, SetSeen, counting, counts_of, life_data
from quotes.calc.life.bounds import Bounds, likelihood_bounds
from quotes.calc.life.experience import learn
from quotes.calc.life.fit import Fit, fit
from quotes.calc.life.life_data import CONFIDENCE

Rule = Literal["learnt", "likelihood"]
ENOUGH = 10
"""Below so many failures of one mode the shape stays the catalogue's."""
SHARPEST = 10.0
"""No wear is sharper: the catalogue takes no greater shape either."""


@dataclass(frozen=True, slots=True)
class About:
    """Which life it is about. `engine_type` empty: of every engine type that has the component."""

    component: str
    name: str
    basis: Basis
    engine_type: str = ""
    type_name: str = field(default_factory=lambda: say("every engine type"))


@dataclass(frozen=True, slots=True)
class Proposal:
    """One change that the owner may approve. `data` are the rows that it would count, and no others."""

    about: About
    rule: Rule
    catalogue: LifeLaw
    """As the catalogue has it, before any change."""
    before: LifeLaw
    after: LifeLaw
    counts: Counts
    data: tuple[SetSeen, ...]
    catalogue_weight: float
    fitted: Fit | None = None
    bounds: Bounds | None = None

    @property
    def shop_weight(self) -> float:
        """With the catalogue's it makes 1."""
        return 1.0 - self.catalogue_weight

    @property
    def teardowns(self) -> frozenset[str]:
        """Keys of the strip-downs that its rows come from."""
        return frozenset(row.teardown for row in self.data)

    @property
    def fingerprint(self) -> str:
        """What tells this proposal from one on other evidence, so that what is approved is what was seen."""
        told = (
            self.about.component,
            self.about.basis,
            self.about.engine_type,
            self.rule,
            [f"{figure:.9g}" for figure in (self.before.life, self.after.life, self.after.shape)],
            [row.as_json() for row in self.data],
        )
        return hashlib.sha256(repr(told).encode()).hexdigest()

    def approved(self, teardowns: frozenset[str] = frozenset()) -> ApprovedLife:
        """The change as the sums would read it."""
        return ApprovedLife(
            component=self.about.component,
            basis=self.about.basis,
            engine_type=self.about.engine_type,
            low=self.after.low,
            typical=self.after.life,
            high=self.after.high,
            shape=self.after.shape,
            evidence=self.after.evidence,
            source="our own record",
            teardowns=self.teardowns | teardowns,
        )


def propose(about: About, rows: Sequence[SetSeen], *, catalogue: LifeLaw, before: LifeLaw) -> Proposal | None:
    """What stood before, moved by rows that it has not counted yet; None where none counts."""
    data = counting(rows)
    if not data:
        return None
    learnt = learn(life_data(data), eta=before.eta, beta=before.shape, evidence=before.evidence)
    after = learnt_law(learnt, before.quantile)
    return Proposal(
        about=about,
        rule="learnt",
        catalogue=catalogue,
        before=before,
        after=after,
        counts=counts_of(data),
        data=data,
        catalogue_weight=catalogue_weight(catalogue, after),
    )


def propose_by_likelihood(
    about: About, rows: Sequence[SetSeen], *, catalogue: LifeLaw, before: LifeLaw
) -> Proposal | None:
    """Shape and life from the shop's own record alone, of all that counts; None below ten of one mode.

    Raises BadRequest where the data give no such pair, or one that no wear would have.
    """
    data = counting(rows)
    counts = counts_of(data)
    if counts.of_one_mode < ENOUGH:
        return None
    ages = life_data(data)
    fitted = fit(ages)
    if fitted.beta > SHARPEST:
        allowed = say("at most {most}: no wear is sharper", most=f"{SHARPEST:g}")
        raise BadRequest((Fault("shape", say_figure(fitted.beta, 1), allowed),))
    bounds = likelihood_bounds(ages, fitted, CONFIDENCE)
    eta_low, eta_high = bounds.eta_low or fitted.eta, bounds.eta_high or fitted.eta
    after = law_from(fitted.eta, fitted.beta, float(ages.failed), before.quantile, eta_low, eta_high)
    return Proposal(
        about=about,
        rule="likelihood",
        catalogue=catalogue,
        before=before,
        after=after,
        counts=counts,
        data=data,
        catalogue_weight=0.0,
        fitted=fitted,
        bounds=bounds,
    )
