"""A planned service as it is run: stretches between meetings and openings, and the articles that serve them.

A part that stays has one theta over all the stretches that it serves, one renewed on the way a fresh one, and
the duty factor is one for the whole. The gammas are integrated by hand; what is drawn pairs with every other
option, article by article.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from quotes.calc.life.draws import DRAWN, Draws, duty_factors, unit_gammas
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

    def wearing(self, rate: float) -> Article:
        """The same article, wearing at another rate."""
        return Article(self.code, self.number, self.wear.wearing(rate), self.begins, self.ends, self.set_back)


@dataclass(frozen=True)
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
        each = self._damages if factors is None else damages(self.articles, self.uses, factors)
        evidence = np.array([article.wear.evidence for article in self.articles])[:, None]
        weight, worn = np.zeros((2, *each.shape[::2]))
        found, faults = [], np.cumsum(self.faults)
        for stretch in range(len(self.uses)):
            rows = serving(self.articles, stretch)
            weight[rows] += each[rows, stretch]
            worn[rows] = evidence[rows] * np.log1p(self.shop_factor * weight[rows])
            found.append(float(np.exp(-worn.sum(axis=0, initial=faults[stretch])).mean()))
        return tuple(found)

    @cached_property
    def _damages(self) -> Draws:
        """In the seasons that are drawn."""
        return damages(self.articles, self.uses, duty_factors())

    def hazards(self, article: Article) -> Draws:
        """What one article adds to the hazard of each stretch of a season as hard as planned.

        Like every hazard that is held against a bound, it is scaled as a whole by the shop's factor.
        """
        wear, age, scale = article.wear, article.wear.age, article.wear.prior_scale
        found, worn, before = [0.0] * len(self.uses), 0.0, 0.0
        for stretch in range(article.begins, article.ends):
            age = min(age, article.set_back.get(stretch, age))
            reached = age + wear.rate * self.uses[stretch]
            worn += (reached**wear.shape - age**wear.shape) * wear.stopping / scale
            after = wear.evidence * math.log1p(worn)
            found[stretch], before, age = self.shop_factor * (after - before), after, reached
        return np.array(found)

    def drawn(self, apart: Collection[str] = ()) -> tuple[Draws, Draws]:
        """Shape (stretches, SEASONS * PARTS_PER_SEASON): drawn hazards of every stretch.

        First those of the components named `apart` alone, then those of all with our own faults.
        """
        places = range(len(self.articles))
        some = self._sum(place for place in places if self.articles[place].code in apart)
        rest = self._sum(place for place in places if self.articles[place].code not in apart)
        rest += some
        rest += np.array(self.faults)[:, None, None]
        return _season_by_season(some), _season_by_season(rest)

    def _sum(self, places: Iterable[int]) -> Draws:
        found = np.zeros((len(self.uses), *DRAWN))
        added = np.empty(DRAWN)  # one room for all: asking for it anew takes longer
        for place in places:
            article = self.articles[place]
            gammas = unit_gammas(article.code, article.number, article.wear.evidence)
            weights = self.shop_factor * self._damages[place]
            for stretch in range(article.begins, article.ends):
                np.multiply(gammas, weights[stretch], out=added)
                found[stretch] += added
        return found


def _season_by_season(drawn: Draws) -> Draws:
    """Each stretch's draws in one row, those of one season together."""
    return drawn.transpose(0, 2, 1).reshape(len(drawn), -1)


def serving(articles: Sequence[Article], stretch: int) -> list[int]:
    """The places of those that serve in a stretch."""
    return [place for place, each in enumerate(articles) if each.begins <= stretch < each.ends]


def damages(articles: Sequence[Article], uses: tuple[float, ...], factors: Draws) -> Draws:
    """Shape (articles, stretches, factors): stopping damage over the prior's scale; none where not served."""
    wears = [each.wear for each in articles]
    columns = [(wear.age, wear.rate, wear.shape, wear.stopping / wear.prior_scale) for wear in wears]
    age, rate, shape, scale = np.array(columns).reshape(-1, 4).T
    ages = np.repeat(age[:, None], factors.size, axis=1)
    powers = _powers(ages, shape)
    found = np.zeros((len(articles), len(uses), factors.size))
    for stretch, use in enumerate(uses):
        rows = serving(articles, stretch)
        for place in rows:
            if stretch in articles[place].set_back:
                ages[place] = np.minimum(ages[place], articles[place].set_back[stretch])
                powers[place] = ages[place] ** wears[place].shape
        ages[rows] += (rate[rows] * use)[:, None] * factors
        after = _powers(ages[rows], shape[rows])
        found[rows, stretch] = (after - powers[rows]) * scale[rows, None]
        powers[rows] = after
    return found


def _powers(ages: Draws, shapes: Draws) -> Draws:
    """Each row to the power of its own shape, rows of one shape together."""
    found = np.empty_like(ages)
    for shape in np.unique(shapes):
        rows = shapes == shape
        found[rows] = ages[rows] ** float(shape)
    return found
