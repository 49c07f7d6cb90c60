"""A course as it is driven: its chances at openings and meetings, each with its band."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from quotes.calc.life.course import Article, Course
from quotes.calc.life.draws import Draws, band
from quotes.calc.scope.case import Case
from quotes.calc.sheet.base_values import Likely

HAIR = 1e-9


@dataclass(frozen=True)
class Drive:
    """A course of several services, cut at the openings and at its first and last meeting."""

    course: Course
    services: tuple[range, ...]
    """The stretches of each service."""
    riders: frozenset[str]
    """Components that can lock the wheel or oil the tyre."""
    held: tuple[float, ...]
    """Their hazard in each service as it is held against the ceiling: what stays known to have run so far."""

    @cached_property
    def _means(self) -> tuple[float, ...]:
        return (1.0, *self.course.means())

    @cached_property
    def _drawn(self) -> tuple[Draws, Draws]:
        return self.course.drawn(self.riders)

    @cached_property
    def draws(self) -> Draws:
        """The chance of the whole in each draw, to be held against another option's."""
        return np.asarray(np.exp(-self._drawn[1].sum(axis=0)))

    @property
    def mean(self) -> float:
        """The mean chance of the whole."""
        return self._means[-1]

    @cached_property
    def whole(self) -> Likely:
        return self._over(range(len(self.course.uses)))

    def service(self, number: int) -> Likely:
        """The chance of running through a service, for an engine that has reached it."""
        return self._over(self.services[number])

    @property
    def first_meeting(self) -> Likely:
        return self._over(range(1))

    @property
    def last_meeting(self) -> Likely:
        last = len(self.course.uses)
        return self._over(range(last - 1, last))

    def _over(self, stretches: range) -> Likely:
        mean = self._means[stretches.stop] / self._means[stretches.start]
        low, high = band(self._drawn[1][stretches.start : stretches.stop].sum(axis=0))
        return Likely(value=mean, low=math.exp(-high), high=math.exp(-low))

    @cached_property
    def hazards(self) -> dict[str, float]:
        """What each place adds to the hazard of the whole, whichever articles serve it."""
        found: dict[str, float] = {}
        for article, rows in self._rows:
            found[article.code] = found.get(article.code, 0.0) + float(rows.sum())
        return found

    @cached_property
    def _rows(self) -> tuple[tuple[Article, Draws], ...]:
        return tuple((article, self.course.hazards(article)) for article in self.course.articles)

    @property
    def wheel_locks(self) -> tuple[float, ...]:
        """Chance that a part which bears on the rider's safety stops the engine, in each service."""
        return tuple(-math.expm1(-held) for held in self.held)

    def wheel_lock(self, number: int) -> Likely:
        """The same of one service, with its band."""
        return self._lock(self.services[number], self.held[number])

    @property
    def wheel_lock_in_all(self) -> Likely:
        """The same over the whole."""
        hazard = sum(float(rows.sum()) for article, rows in self._rows if article.code in self.riders)
        return self._lock(range(len(self.course.uses)), hazard)

    def _lock(self, over: range, hazard: float) -> Likely:
        low, high = band(self._drawn[0][over.start : over.stop].sum(axis=0))
        return Likely(value=-math.expm1(-hazard), low=-math.expm1(-low), high=-math.expm1(-high))


@dataclass(frozen=True)
class DrivenService:
    """One service to be driven: its use, the hazard of our own faults, and that held against the ceiling."""

    use: float
    faults: float
    riders: float


def drive(case: Case, articles: Iterable[Article], run: Sequence[DrivenService], meeting: float) -> Drive:
    """The course of a case; each article by the numbers of the services that it serves."""
    ends = [0.0]
    for each in run:
        ends.append(ends[-1] + each.use)
    cuts = _cuts([*ends, meeting, ends[-1] - meeting], ends[-1])
    at = [min(range(len(cuts)), key=lambda n: abs(cuts[n] - end)) for end in ends]
    stretches = tuple(after - before for before, after in pairwise(cuts))
    services = tuple(range(begin, end) for begin, end in pairwise(at))
    spread = [
        run[number].faults * stretches[stretch] / run[number].use
        for number, service in enumerate(services)
        for stretch in service
    ]
    cut = tuple(
        Article(
            each.code,
            each.number,
            each.wear,
            begins=at[each.begins],
            ends=at[each.ends],
            set_back={at[number]: age for number, age in each.set_back.items()},
        )
        for each in articles
    )
    course = Course(stretches, tuple(spread), cut, case.shop.shop_factor)
    return Drive(course, services, _riders(case), tuple(each.riders for each in run))


def _cuts(ends: list[float], whole: float) -> list[float]:
    """The ends in order, those that fall together taken once."""
    found = [0.0]
    for end in sorted(ends):
        if end > found[-1] + HAIR * whole and end <= whole * (1.0 + HAIR):
            found.append(end)
    return found


def _riders(case: Case) -> frozenset[str]:
    components = case.catalogue.components
    return frozenset(code for code in case.levels if components[code].locks_wheel_or_oils_tyre)
