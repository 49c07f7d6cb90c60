"""The probability plot with its table: what the owner's page is told."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from catalogue.calc.said import say, say_figure
from quotes.calc.learning.plot import PlotPoint, ProbabilityPlot
from quotes.documents.drawing.probability_plot import draw_probability_plot
from quotes.documents.words import low_to_high, whole_percent

SHOWN = 12
"""Rows that stand open; the rest is folded."""


@dataclass(frozen=True, slots=True)
class SeenRow:
    """One item or more: its age, what became of it, and the share failed by then."""

    age: str
    became: str
    share: str


@dataclass(frozen=True, slots=True)
class LawRow:
    """One law."""

    name: str
    shape: str
    life: str


@dataclass(frozen=True, slots=True)
class BandRow:
    """How little and how much may have failed by an age."""

    age: str
    low: str
    high: str


@dataclass(frozen=True, slots=True)
class PlotFigure:
    """The drawing in both shapes, and its numbers."""

    unit: str
    wide: SafeString
    narrow: SafeString
    laws: tuple[LawRow, ...]
    rows: tuple[SeenRow, ...]
    band: tuple[BandRow, ...] = ()
    sure: str = ""
    """How sure the band is at each age by itself."""

    @property
    def first(self) -> tuple[SeenRow, ...]:
        return self.rows[:SHOWN]

    @property
    def rest(self) -> tuple[SeenRow, ...]:
        return self.rows[SHOWN:]


def plot_figure(plot: ProbabilityPlot) -> PlotFigure:
    """Everything that is drawn, in the order of age; survivors of one age share a row."""
    seen = [(point.age, _point_row(point)) for point in plot.points]
    seen += [(age, _sound_row(age, count)) for age, count in Counter(plot.survivors).items()]
    return PlotFigure(
        unit=plot.unit,
        wide=mark_safe(draw_probability_plot(plot, "wide")),
        narrow=mark_safe(draw_probability_plot(plot, "narrow")),
        laws=tuple(LawRow(law.name, say_figure(law.beta, 1), _estimated(law.eta)) for law in plot.lines),
        rows=tuple(row for _, row in sorted(seen, key=lambda each: (each[0], each[1].became))),
        band=tuple(_band_rows(plot)),
        sure=whole_percent(plot.band.confidence) if plot.band else "",
    )


def _band_rows(plot: ProbabilityPlot) -> Iterable[BandRow]:
    """The band at the marks of age."""
    if plot.band is None:
        return
    for age, low, high in zip(plot.band.ages, plot.band.low, plot.band.high, strict=True):
        if age in plot.age_marks:
            yield BandRow(_age(age), whole_percent(low), whole_percent(high))


def _point_row(point: PlotPoint) -> SeenRow:
    share = whole_percent(point.share_failed)
    if point.kind == "failed":
        return SeenRow(_age(point.age), say("failed"), share)
    between = low_to_high(_age(point.seen_good_at or 0), _age(point.found_at or point.age))
    return SeenRow(between, say("past its limit, between two looks"), share)


def _sound_row(age: float, count: int) -> SeenRow:
    sound = say("still sound") if count == 1 else say("still sound, {count} of them", count=count)
    return SeenRow(_age(age), sound, "")


def _estimated(life: float) -> str:
    """A life that was reckoned: above a thousand to the nearest ten."""
    return _age(math.floor(life / 10 + 0.5) * 10 if life >= 1000 else life)


def _age(age: float) -> str:
    """An age as it was seen: tenths only under ten."""
    return say_figure(age, 1 if age < 10 and age != round(age) else 0)
