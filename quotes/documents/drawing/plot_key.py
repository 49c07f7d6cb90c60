"""The key of a probability plot: what each stroke and each mark on it means."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from catalogue.calc.said import say
from quotes.calc.learning.plot import PlotLine, ProbabilityPlot
from quotes.documents.drawing.letters import width, wrapped
from quotes.documents.drawing.plot_axes import Form
from quotes.documents.drawing.plot_marks import BAND, DOT, STROKES, TICK, disc, past_limit_bar, tick
from quotes.documents.drawing.svg import SOFT, line, rectangle, text
from quotes.documents.words import whole_percent


def draw_key(plot: ProbabilityPlot, form: Form) -> tuple[list[str], float]:
    """The laws by their strokes, then the marks that are on it by their shape."""
    x, y = 0.0, form.bottom + 64
    parts = []
    for draw, long, name in (*map(_law_sample, plot.lines), *_band_sample(plot), *_mark_samples(plot)):
        words = wrapped(name, "B612", form.letter, form.width - long - 7)
        whole = long + 7 + max(width(each, "B612", form.letter) for each in words)
        if x > 0 and x + whole > form.width:
            x, y = 0.0, y + form.letter * 1.7
        parts.append(draw(x + 1, y))
        for place, each in enumerate(words):
            y += form.letter * 1.28 if place else 0
            parts.append(text(each, x + long + 7, y + form.letter * 0.36, form.letter))
        x += whole + 18
    return parts, y + 12


_Sample = tuple[Callable[[float, float], str], float, str]
"""How to draw it at a place, how long it is, and its name."""


def _law_sample(law: PlotLine) -> _Sample:
    wide, dash = STROKES[law.kind]
    return (lambda x, y: line(x, y, x + 33, y, width=wide, dash=dash)), 34, law.name


def _band_sample(plot: ProbabilityPlot) -> Iterable[_Sample]:
    if plot.band is not None:
        sure = whole_percent(plot.band.confidence)
        yield _band_box, 34, say("where our record lets it lie, {sure} sure at each age", sure=sure)


def _band_box(x: float, y: float) -> str:
    return rectangle(x, y - 5, 33, 10, fill=BAND, stroke=SOFT, line_width=0.8)


def _mark_samples(plot: ProbabilityPlot) -> Iterable[_Sample]:
    kinds = {point.kind for point in plot.points}
    if "failed" in kinds:
        yield (lambda x, y: disc(x + DOT, y)), 2 * DOT, say("failed")
    if "past_limit" in kinds:
        yield (
            (lambda x, y: past_limit_bar(x + 10, y, x, x + 20)),
            20,
            say("past its limit, found between two looks"),
        )
    if plot.survivors:
        yield (lambda x, y: tick(x + 2, y + TICK / 2)), 4, say("still sound at that age, and how many")
