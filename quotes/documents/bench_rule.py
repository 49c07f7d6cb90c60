"""The bench rule: the hours of one week as a steel rule. Promised is solid; the stop is what there is."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal

from catalogue.calc.said import say
from quotes.calc.bench_words import hours_in_words
from quotes.calc.dates.slots import Week
from quotes.documents.drawing.svg import HAIR, INK, drawing, line, rectangle
from quotes.documents.words import NO_BREAK, long_day

WIDTH, HEIGHT, EDGE = 520.0, 34.0, 4.0
FOOT, BAR_TOP, BAR = 33.0, 6.0, 12.0
LONG, MIDDLE, SHORT = 10.0, 7.0, 4.0
"""Length of the tick at every tenth, fifth and single hour, as on a rule in millimetres."""
MOST_TICKS = 60
"""A rule of more hours is divided more coarsely: closer ticks can't be counted."""


def rule_length(weeks: Iterable[Week]) -> int:
    """Hours on the rule: enough for the fullest of the weeks, in whole tens."""
    most = max((week.there_is for week in weeks), default=Decimal(0))
    return max(10, 10 * math.ceil(most / 10))


def bench_rule(week: Week, length: int) -> str:
    """One week as SVG text, on a rule of `length` hours; weeks of one page share their length."""
    scale = (WIDTH - 2 * EDGE) / length
    stop = EDGE + float(week.there_is) * scale
    parts = [*_ticks(length, scale, stop), line(EDGE, FOOT, WIDTH - EDGE, FOOT, width=1, stroke=HAIR)]
    parts.append(line(EDGE, FOOT, stop, FOOT, width=1.4))
    if week.promised:
        parts.append(rectangle(EDGE, BAR_TOP, float(week.promised) * scale, BAR, fill=INK))
    parts.append(line(stop, 2, stop, FOOT, width=2.5))
    promised, there_is = hours_in_words(week.promised), hours_in_words(week.there_is)
    said = say("{promised} hours promised of {there_is}", promised=promised, there_is=there_is)
    name = f"bench-{week.monday:%Y%m%d}"
    title = say("Week of {day}", day=long_day(week.monday)).replace(NO_BREAK, " ")
    return drawing(name, WIDTH, HEIGHT, title=title, description=said, parts=parts)


def _ticks(length: int, scale: float, stop: float) -> Iterable[str]:
    step = 1 if length <= MOST_TICKS else 5 if length <= MOST_TICKS * 5 else 10
    for hour in range(0, length + 1, step):
        x = EDGE + hour * scale
        tall = LONG if hour % (10 * step) == 0 else MIDDLE if hour % (5 * step) == 0 else SHORT
        yield line(x, FOOT, x, FOOT - tall, width=1, stroke=INK if x <= stop + 0.01 else HAIR)
