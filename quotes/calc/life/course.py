"""A planned service as it is run: stretches between meetings and openings, and the articles that serve them.

A part that stays has one theta over all the stretches that it serves, one renewed on the way a fresh one, and
the duty factor is one for the whole. The gammas are integrated by hand; what is drawn pairs with every other
option, article by article.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field

import numpy as np

from quotes.calc.life.draws import PARTS_PER_SEASON, SEASONS, Draws, duty_factors, unit_gammas
from quotes.calc.life.wear import Wear

AS_PLANNED = np.ones(1)
"""The duty factor of a season that is just as hard as planned."""


@dataclass(frozen=True, slots=True)
class Article:
    """One article in its place, from the stretch that it begins to the one before which it is taken out."""

    code: str
    number: int
    """0 is what came in, 1 the first new one."""
    wear: Wear
    """Its law, and its age when it begins."""
    begins: int
    ends: int
    set_back: Mapping[int, float] = field(default_factory=dict)
    """Age that it has at most from a stretch on, where it was reconditioned before it."""


@dataclass(frozen=True, slots=True)
class Course:
    """Stretches of use in order, each with what our own faults add, and every article that serves."""

    uses: tuple[float, ...]
    faults: tuple[float, ...]
    articles: tuple[Article, ...]
    shop_factor: float

    def means(self, factors: Draws | None = None) -> tuple[float, ...]:
        """The mean chance to the end of each stretch, from the beginning.

        Over an article the mean of exp(-theta w) is (1 + w / b)^-a0, w being all its stretches so far.
        """
        factors = duty_factors() if factors is None else factors
        hazard = np.zeros((len(self.uses), factors.size))
        hazard += np.cumsum(self.faults)[:, None]
        for article in self.articles:
            hazard += self._hazard(article, factors)
        return tuple(float(mean) for mean in np.exp(-hazard).mean(axis=1))

    def hazards(self, article: Article) -> Draws:
        """What one article adds to the hazard of each stretch of a season as hard as planned.

        Like every hazard that is held against a bound, it is scaled as a whole by the shop's factor.
        """
        wear, age = article.wear, article.wear.age
        found, worn, before = [0.0] * len(self.uses), 0.0, 0.0
        for stretch in range(article.begins, article.ends):
            age = min(age, article.set_back.get(stretch, age))
            reached = age + wear.rate * self.uses[stretch]
            worn += (reached**wear.shape - age**wear.shape) * wear.stopping / wear.prior_scale
            after = wear.evidence * math.log1p(worn)
            found[stretch], before, age = self.shop_factor * (after - before), after, reached
        return np.array(found)

    def _hazard(self, article: Article, factors: Draws) -> Draws:
        """Shape (stretches, factors): cumulative hazard to the end of each stretch, theta integrated."""
        weights = np.zeros((len(self.uses), factors.size))
        weights[article.begins : article.ends] = damages(article, self.uses, factors)
        return np.asarray(article.wear.evidence * np.log1p(self.shop_factor * np.cumsum(weights, axis=0)))

    def drawn(self, apart: Collection[str] = ()) -> tuple[Draws, Draws]:
        """Shape (stretches, SEASONS * PARTS_PER_SEASON): drawn hazards of every stretch.

        First those of the components named `apart` alone, then those of all with our own faults.
        """
        some = self._sum(article for article in self.articles if article.code in apart)
        rest = self._sum(article for article in self.articles if article.code not in apart)
        rest += some
        rest += np.array(self.faults)[:, None, None]
        flat = (len(self.uses), SEASONS * PARTS_PER_SEASON)
        return some.reshape(flat), rest.reshape(flat)

    def _sum(self, articles: Iterable[Article]) -> Draws:
        found = np.zeros((len(self.uses), SEASONS, PARTS_PER_SEASON))
        factors = duty_factors()
        added = np.empty((SEASONS, PARTS_PER_SEASON))  # one room for all: asking for it anew takes longer
        for article in articles:
            gammas = unit_gammas(article.code, article.number, article.wear.evidence)
            weights = self.shop_factor * damages(article, self.uses, factors)
            for stretch, weight in enumerate(weights, start=article.begins):
                np.multiply(gammas, weight[:, None], out=added)
                found[stretch] += added
        return found


def damages(article: Article, uses: tuple[float, ...], factors: Draws) -> Draws:
    """Shape (stretches served, factors): stopping damage of each stretch over the prior's scale."""
    wear, age = article.wear, np.full(factors.size, article.wear.age)
    found = np.empty((article.ends - article.begins, factors.size))
    power = age**wear.shape
    for row, stretch in enumerate(range(article.begins, article.ends)):
        if stretch in article.set_back:
            age = np.minimum(age, article.set_back[stretch])
            power = age**wear.shape
        age = age + wear.rate * uses[stretch] * factors
        after = age**wear.shape
        found[row] = after - power
        power = after
    return np.asarray(found * (wear.stopping / wear.prior_scale))
