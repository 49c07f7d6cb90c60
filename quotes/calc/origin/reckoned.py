"""The chance with the loads of its tune reckoned otherwise, down to what that does to each component."""

from __future__ import annotations

import math
from collections.abc import Iterator

from catalogue.calc.said import say, to_say
from quotes.calc.life.course import Article, Course
from quotes.calc.origin.values import MINUS, Origin, hazard, number, signed_hazard
from quotes.calc.origin.worked import Explained
from quotes.calc.sheet.tune_values import ModelWidth
from quotes.calc.sheet.tune_words import OTHERWISE
from quotes.calc.sheet.words import chance_in_words, first_large, percent_band, whole_percent
from quotes.calc.tune.loads import loads_of
from quotes.calc.tune.width import WAYS, Running, more_wear, rates_otherwise

LOADS = {"inertia": to_say("load by revs"), "gas": to_say("load by gas pressure")}
HOW = {
    "strength_less": to_say("A part of race grade bears less, so the loads of the tune wear it faster."),
    "strength_more": to_say("A part of race grade bears more, so the loads of the tune wear it less."),
    "exponent_less": to_say("Life falls as a power of load: here with an exponent of one less."),
    "exponent_more": to_say("Life falls as a power of load: here with an exponent of one more."),
    "from_geometry": to_say(
        "What a load leaves of a life from bore, stroke, moving mass and compression, in place of the "
        "trade's factor."
    ),
}


def width(told: Explained) -> Origin:
    """The lowest and the highest of all ways of reckoning. KeyError where the tune has no figures."""
    found = _width(told)
    as_reckoned = Origin(say("As reckoned"), whole_percent(found.value), exact=found.value, key="chance")
    chances = (as_reckoned, *(_named(found, way) for way in WAYS))
    return Origin(
        say("The width of the model"),
        percent_band(found.low, found.high),
        say("From the lowest to the highest of all ways of reckoning the loads of this tune."),
        parts=(
            Origin(
                say("The lowest"),
                whole_percent(found.low),
                parts=chances,
                adds="least",
                exact=found.low,
            ),
            Origin(
                say("The highest"),
                whole_percent(found.high),
                parts=chances,
                adds="most",
                exact=found.high,
            ),
        ),
        key="reckoned",
    )


def reckoned(told: Explained, way: str) -> Origin:
    """The chance by one way: the hazard as reckoned, and what it adds to every component that it touches."""
    found = _width(told)
    chance = float(getattr(found, way)) if way in WAYS else None
    if chance is None:
        raise KeyError(f"reckoned:{way}")
    parts = tuple(_components(told, way))
    as_reckoned = -math.log(found.value)
    rest = -math.log(chance) - as_reckoned - math.fsum(float(part.exact or 0.0) for part in parts)
    return Origin(
        say(OTHERWISE[way]),
        f"{chance_in_words(chance)}, {whole_percent(chance)}",
        say(HOW[way]),
        parts=(
            Origin(say("As reckoned"), hazard(as_reckoned), exact=as_reckoned, key="chance"),
            *parts,
            Origin(
                say("The season itself"),
                signed_hazard(rest),
                say("What the mean over seasons harder and easier than planned makes of it."),
                exact=rest,
            ),
        ),
        adds="hazard",
        exact=chance,
        key=f"reckoned:{way}",
    )


def _width(told: Explained) -> ModelWidth:
    figures = told.option.tune_figures
    if figures is None or figures.width is None:
        raise KeyError("reckoned")
    return figures.width


def _named(found: ModelWidth, way: str) -> Origin:
    chance = float(getattr(found, way))
    return Origin(say(OTHERWISE[way]), whole_percent(chance), exact=chance, key=f"reckoned:{way}")


def _components(told: Explained, way: str) -> Iterator[Origin]:
    """Those that wear at another rate, what changes most first."""
    case, course = told.case, told.driven.drive.course
    loads = loads_of(case.catalogue.engine_type, case.tune)
    running = Running(case.catalogue, case.duty, case.tune, case.fitted, loads)
    rates = rates_otherwise(course.articles, running, WAYS[way])
    found: dict[str, list[Origin]] = {}
    for article, rate in zip(course.articles, rates, strict=True):
        if rate != article.wear.rate:
            added = more_wear(article, running, WAYS[way])
            found.setdefault(article.code, []).extend(_article(course, article, rate, added))
    whole = {code: math.fsum(float(p.exact or 0.0) for p in parts) for code, parts in found.items()}
    for code in sorted(found, key=lambda each: (-abs(whole[each]), each)):
        name = first_large(told.catalogue.components[code].name)
        yield Origin(
            name, signed_hazard(whole[code]), parts=tuple(found[code]), adds="sum", exact=whole[code]
        )


def _article(
    course: Course, article: Article, rate: float, added: tuple[tuple[str, float], ...]
) -> Iterator[Origin]:
    after = float(course.hazards(article.wearing(rate)).sum())
    before = float(course.hazards(article).sum())
    was = article.wear.rate
    causes = tuple(
        Origin(first_large(say(LOADS[cause])), number(more, 4), exact=more) for cause, more in added
    )
    as_reckoned = Origin(say("As reckoned"), number(was, 4), exact=was)
    anew = Origin(
        say("Rate of wear, reckoned so"),
        number(rate, 4),
        parts=(as_reckoned, *causes),
        adds="sum",
        exact=rate,
    )
    yield Origin(say("Hazard, reckoned so"), hazard(after), exact=after)
    yield Origin(say("Less as reckoned"), f"{MINUS}{hazard(before)}", exact=-before)
    said = say("{now} in place of {was}", now=number(rate, 4), was=number(was, 4))
    yield Origin(say("Rate of wear"), said, parts=(anew,))
