"""A build that is opened so often in its season that nobody would sell it so, and what makes sense instead.

By the sums alone: its openings cost more than the build itself, and either it is opened more than twice as
often as the other ways, or it is likelier to stop on the way than to see the season out.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from catalogue.calc.said import say, say_figure, say_inside
from quotes.calc.sheet.season_values import SeasonPlan
from quotes.calc.sheet.values import Option
from quotes.calc.sheet.words import estimate_in_words, times_in_words

MORE_OFTEN = 2
"""Opened more than so many times as often as the way that is opened least."""
EVEN_CHANCE = 0.5


def oversold(option: Option, options: Sequence[Option]) -> bool:
    """Whether nobody would sell this way of building for the season that is planned.

    A single opening is no plan to warn of, whatever it costs.
    """
    season = option.season
    if season is None or len(season.openings) < 2 or _openings_cost(season) <= option.gross.typical:
        return False
    least = min(_times_opened(other) for other in options)
    return len(season.openings) > MORE_OFTEN * least or option.chance.value < EVEN_CHANCE


def warned(option: Option, options: Sequence[Option], decimals: int) -> Option:
    """The option with the warning before all else that must be said of it, where it is one to warn of."""
    if option.season is None or not oversold(option, options):
        return option
    said = " ".join(
        [_why(option, option.season, decimals), *_instead(option, option.season, options, decimals)]
    )
    return option.model_copy(update={"attention": (said, *option.attention), "oversold": True})


def _why(option: Option, season: SeasonPlan, decimals: int) -> str:
    why = say(
        "We would not sell it so for the whole of this season: it is opened {times}, and the openings cost "
        "{openings}, more than the build at {build}.",
        times=times_in_words(len(season.openings)),
        openings=say_figure(_openings_cost(season), decimals),
        build=say_figure(option.gross.typical, decimals),
    )
    if option.chance.value >= EVEN_CHANCE:
        return why
    stops = say("Even so it is likelier to stop on the way than to see the season out.")
    return f"{why} {stops}"


def _instead(option: Option, season: SeasonPlan, options: Sequence[Option], decimals: int) -> list[str]:
    """The nearest way that nobody need warn of, and how far this one runs at a time."""
    runs = estimate_in_words(season.services[0].length.amount, season.services[0].length.unit)
    sensible = [other for other in options if other is not option and not oversold(other, options)]
    if not sensible:
        return [say("Sensible instead: a shorter season on it, {runs} between openings.", runs=runs)]
    nearest = max(sensible, key=lambda other: other.power_gain_pct.typical)
    told = {
        "name": say_inside(nearest.name),
        "whole": say_figure(nearest.planned_gross.typical, decimals),
        "times": times_in_words(_times_opened(nearest)),
    }
    sentence = (
        say("Sensible instead: {name}, opened {times} and {whole} for the season, openings with it.", **told)
        if nearest.season
        else say("Sensible instead: {name}, {whole} for the season and not opened on the way.", **told)
    )
    counts = say(
        "If the power is what counts, plan it for the meetings that count: it runs {runs} between openings.",
        runs=runs,
    )
    return [sentence, counts]


def _times_opened(option: Option) -> int:
    return len(option.season.openings) if option.season else 0


def _openings_cost(season: SeasonPlan) -> Decimal:
    return season.gross.typical - season.services[0].gross.typical
