"""The width of the model: the chance of a planned service with the loads of its tune reckoned otherwise.

Only what the service wears is reckoned anew; the ages that parts come with stay as they are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from operator import add

import numpy as np

from catalogue.calc.engine import LOAD_CAUSES, Driver, Duty, EngineCatalogue, LoadCause, Tier
from quotes.calc.life.course import Article, Course, damages
from quotes.calc.life.draws import SEASONS, Draws, duty_factors
from quotes.calc.life.stretches import grade_in
from quotes.calc.life.wear import Laws, life_factor, load_strength
from quotes.calc.tune.loads import Loads, factor_from_load

STRENGTH_STEP = 0.05
"""How far the strength of every grade may be off: a race part that bears 15 % more may bear 10 or 20."""
EXPONENT_STEP = 1.0


@dataclass(frozen=True, slots=True)
class Otherwise:
    """One other way of reckoning the loads of a tune."""

    strength_by: float = 0.0
    exponent_by: float = 0.0
    from_geometry: bool = False


WAYS = {
    "strength_less": Otherwise(strength_by=-STRENGTH_STEP),
    "strength_more": Otherwise(strength_by=STRENGTH_STEP),
    "exponent_less": Otherwise(exponent_by=-EXPONENT_STEP),
    "exponent_more": Otherwise(exponent_by=EXPONENT_STEP),
    "from_geometry": Otherwise(from_geometry=True),
}


@dataclass(frozen=True, slots=True)
class Running:
    """What a service is run on: catalogue, duty, the tune it is run in and the tune the engine came in."""

    catalogue: EngineCatalogue
    duty: Duty
    tune: Tier
    came_in: Tier
    loads: Loads


def chances_otherwise(course: Course, running: Running) -> dict[str, float]:
    """The mean chance of the whole course by each of WAYS, and as it is under `value`.

    Raises OutsideKnownLoads.
    """
    articles = course.articles
    logs = season_logs(articles, course)
    whole = logs.sum(axis=0) - sum(course.faults)
    found = {"value": _mean(whole)}
    for name, way in WAYS.items():
        rates = rates_otherwise(articles, running, way)
        changed = [place for place, each in enumerate(articles) if rates[place] != each.wear.rate]
        anew = [articles[place].wearing(rates[place]) for place in changed]
        apart = season_logs(anew, course).sum(axis=0) - logs[changed].sum(axis=0)
        found[name] = _mean(whole + apart)
    return found


def season_logs(articles: Sequence[Article], course: Course) -> Draws:
    """Shape (articles, SEASONS): logarithm of each article's mean chance in each stratum of the duty factor.

    What was not set back on the way is damaged as by one stretch, so that all of it is worked out at once.
    """
    found = np.empty((len(articles), SEASONS))
    at_once = [place for place, each in enumerate(articles) if not each.set_back]
    found[at_once] = _together([articles[place] for place in at_once], course)
    set_back = [place for place, each in enumerate(articles) if each.set_back]
    back = [articles[place] for place in set_back]
    weight = damages(back, course.uses, duty_factors()).sum(axis=1)
    evidence = np.array([each.wear.evidence for each in back]).reshape(-1, 1)
    found[set_back] = -evidence * np.log1p(course.shop_factor * weight)
    return found


def _together(articles: Sequence[Article], course: Course) -> Draws:
    def column(of: str) -> Draws:
        return np.array([getattr(each.wear, of) for each in articles], dtype=np.float64).reshape(-1, 1)

    uses = np.array([sum(course.uses[each.begins : each.ends]) for each in articles]).reshape(-1, 1)
    age, shape = column("age"), column("shape")
    damage = (age + column("rate") * uses * duty_factors()) ** shape - age**shape
    weight = column("stopping") * damage / column("prior_scale")
    return np.asarray(-column("evidence") * np.log1p(course.shop_factor * weight))


def _mean(logarithm: Draws) -> float:
    return float(np.exp(logarithm).mean())


def rates_otherwise(articles: Sequence[Article], running: Running, way: Otherwise) -> list[float]:
    """The rate of wear of every article by another way of reckoning. Raises OutsideKnownLoads."""
    tune, laws = _otherwise(running, way)
    places = {(each.code, each.number > 0) for each in articles}
    more = {place: [more for _, more in _by_load(*place, running, way, tune, laws)] for place in places}
    return [reduce(add, more[each.code, each.number > 0], each.wear.rate) for each in articles]


def more_wear(article: Article, running: Running, way: Otherwise) -> tuple[tuple[LoadCause, float], ...]:
    """What each load adds to the rate of one article by another way of reckoning."""
    tune, laws = _otherwise(running, way)
    found = _by_load(article.code, article.number > 0, running, way, tune, laws)
    return tuple((cause, more) for cause, more in found if more)


def _otherwise(running: Running, way: Otherwise) -> tuple[Tier, Laws]:
    """The tune with its load factors, and the laws, by another way of reckoning."""
    laws = {
        cause: replace(law, exponent=law.exponent + way.exponent_by)
        for cause, law in running.catalogue.load_laws.items()
    }
    factors: dict[Driver, float] = {
        cause: _factor(cause, running, way) for cause in LOAD_CAUSES if cause in laws
    }
    return replace(running.tune, life_factors={**running.tune.life_factors, **factors}), laws


def _factor(cause: LoadCause, running: Running, way: Otherwise) -> float:
    """What the tune leaves of a stock part's life: from geometry, or the trade's moved with the exponent."""
    load = running.loads.of(cause)
    if way.from_geometry:
        return factor_from_load(load, running.catalogue.load_laws[cause].exponent)
    trade = running.tune.life_factors.get(cause, 1.0)
    return float(min(max(1.0, trade), trade * load**-way.exponent_by))


def _by_load(
    code: str, is_new: bool, running: Running, way: Otherwise, tune: Tier, laws: Laws
) -> Iterator[tuple[LoadCause, float]]:
    """What is added to the rate of a part for each load, worn anew and not as it was."""
    catalogue = running.catalogue
    drivers = catalogue.components[code].drivers
    grade = grade_in(running.tune if is_new else running.came_in, code)
    strength = load_strength(catalogue, code, grade)
    listed = grade == "performance" and code in catalogue.grade_strength
    other = strength + way.strength_by if listed else strength
    for cause in LOAD_CAUSES:
        if share := drivers.get(cause, 0.0):
            was = life_factor(cause, running.tune, strength, catalogue.load_laws)
            now = life_factor(cause, tune, other, laws)
            if now != was:
                yield cause, share * running.duty.severity.get(cause, 1.0) * (1.0 / now - 1.0 / was)
