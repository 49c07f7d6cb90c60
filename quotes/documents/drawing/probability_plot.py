"""The probability plot: ages against the share failed, on axes that make a Weibull law a straight line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise

from catalogue.calc.said import say, say_figure
from quotes.calc.learning.plot import LineKind, PlotLine, PlotPoint, ProbabilityPlot, across, upright
from quotes.documents.drawing.boxes import Box
from quotes.documents.drawing.letters import width, wrapped
from quotes.documents.drawing.svg import (
    HAIR,
    INK,
    PAPER,
    SOFT,
    Anchor,
    drawing,
    element,
    line,
    rectangle,
    text,
)
from quotes.documents.drawing.tracks import FormName
from quotes.documents.words import whole_percent

DOT, CAP, TICK = 4.5, 4.0, 9.0
BAND = "#e4e5e0"
"""Light enough for every mark upon it, and a grey that stays on a black and white printer."""
_STROKES: dict[LineKind, tuple[float, str]] = {
    "catalogue": (1.4, "9 5"),
    "shop": (2.2, ""),
    "likelihood": (1.6, "2 4"),
}
"""Width and dashes of the laws: told apart without colour."""


@dataclass(frozen=True, slots=True)
class _Form:
    """Sizes in drawing units; the plot lies between `left`, `right`, `top` and `bottom`."""

    name: FormName
    width: float
    left: float
    right: float
    top: float
    bottom: float
    letter: float


_FORMS: dict[FormName, _Form] = {
    "wide": _Form("wide", 560, left=52, right=548, top=40, bottom=330, letter=12),
    "narrow": _Form("narrow", 340, left=46, right=332, top=42, bottom=320, letter=13),
}


@dataclass(frozen=True, slots=True)
class _Axes:
    """From ages and shares to places."""

    plot: ProbabilityPlot
    form: _Form

    def x(self, age: float) -> float:
        least, most = (across(each) for each in self.plot.ages)
        at = (across(min(max(age, self.plot.ages[0]), self.plot.ages[1])) - least) / (most - least)
        return self.form.left + at * (self.form.right - self.form.left)

    def y(self, share: float) -> float:
        least, most = (upright(each) for each in self.plot.shares)
        at = (upright(min(max(share, self.plot.shares[0]), self.plot.shares[1])) - least) / (most - least)
        return self.form.bottom - at * (self.form.bottom - self.form.top)


def draw_probability_plot(plot: ProbabilityPlot, shape: FormName) -> str:
    """Discs failed, rings found past their limit between two looks, ticks at the foot still sound."""
    form = _FORMS[shape]
    on = _Axes(plot, form)
    key, height = _draw_key(plot, form)
    return drawing(
        f"plot-{shape}",
        form.width,
        height,
        title=say("Ages seen and the laws drawn through them, on Weibull axes"),
        description=_description(plot),
        parts=(
            *_band(on),
            *_share_marks(on),
            *_age_marks(on),
            *(_law(each, on) for each in plot.lines),
            *(_point(point, on) for point in plot.points),
            *(_survivor(age, on) for age in plot.survivors),
            *_counts(on),
            *key,
        ),
    )


def _plain(number: float) -> str:
    """A mark of a scale with the decimals it has."""
    decimals = len(f"{number:.10g}".partition(".")[2])
    return say_figure(number, decimals)


def _share_marks(on: _Axes) -> Iterable[str]:
    form = on.form
    yield text(say("Failed or past its limit by that age"), 0, 14, form.letter, bold=True)
    taken: list[Box] = []
    for share in on.plot.share_marks:
        y, words = on.y(share), f"{_plain(share * 100)}\N{NO-BREAK SPACE}%"
        yield line(form.left, y, form.right, y, width=1, stroke=HAIR)
        box = Box(0, y - form.letter * 0.6, form.left, y + form.letter * 0.6)
        if not any(box.touches(other) for other in taken):
            taken.append(box)
            yield text(words, form.left - 6, y + form.letter * 0.36, form.letter, anchor="end")


def _age_marks(on: _Axes) -> Iterable[str]:
    form = on.form
    yield line(form.left, form.bottom, form.right, form.bottom, width=1.4)
    taken: list[Box] = []
    for age in on.plot.age_marks:
        x, words = on.x(age), _plain(age)
        yield line(x, form.top, x, form.bottom, width=1, stroke=HAIR)
        yield line(x, form.bottom, x, form.bottom + 5, width=1.2)
        half = width(words, "B612", form.letter) / 2
        at: tuple[float, Anchor] = (form.width, "end") if x + half > form.width else (x, "middle")
        left = at[0] - half * (2 if at[1] == "end" else 1)
        box = Box(left - 4, form.bottom, left + 2 * half + 4, form.bottom + 20)
        if not any(box.touches(other) for other in taken):
            taken.append(box)
            yield text(words, at[0], form.bottom + 20, form.letter, anchor=at[1])
    unit = say("Age in reference {unit}, each step a multiple", unit=on.plot.unit)
    yield text(unit, form.right, form.bottom + 39, form.letter, anchor="end", fill=SOFT)


def _band(on: _Axes) -> Iterable[str]:
    """Light between its bounds, each with a thin edge where it lies inside the axes."""
    band = on.plot.band
    if band is None:
        return
    edges = [
        [(on.x(age), on.y(share)) for age, share in zip(band.ages, row, strict=True)]
        for row in (band.low, band.high)
    ]
    yield element("polygon", points=_points([*edges[0], *reversed(edges[1])]), fill=BAND)
    for edge in edges:
        for first, last in pairwise(edge):
            if not (first[1] == last[1] and first[1] in {on.form.top, on.form.bottom}):
                yield line(*first, *last, width=0.8, stroke=SOFT)


def _points(places: Iterable[tuple[float, float]]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in places)


def _law(law: PlotLine, on: _Axes) -> str:
    (x1, y1), (x2, y2) = _ends(law, on)
    wide, dash = _STROKES[law.kind]
    return line(x1, y1, x2, y2, width=wide, dash=dash)


def _ends(law: PlotLine, on: _Axes) -> tuple[tuple[float, float], tuple[float, float]]:
    first, last = law.ends
    return (on.x(first[0]), on.y(first[1])), (on.x(last[0]), on.y(last[1]))


def _point(point: PlotPoint, on: _Axes) -> str:
    x, y = on.x(point.age), on.y(point.share_failed)
    if point.kind == "failed":
        return _disc(x, y)
    first = on.x(point.seen_good_at) if point.seen_good_at else None
    return _between(x, y, first, on.x(point.found_at or point.age), edge=on.form.left)


def _disc(x: float, y: float) -> str:
    return element("circle", cx=x, cy=y, r=DOT, fill=INK)


def _between(x: float, y: float, first: float | None, last: float, edge: float = 0.0) -> str:
    """A ring on a bar from the last good look to the one that found it; from the edge without the first."""
    return (
        line(edge if first is None else first, y, last, y, width=1.4)
        + ("" if first is None else line(first, y - CAP, first, y + CAP, width=1.4))
        + line(last, y - CAP, last, y + CAP, width=1.4)
        + element("circle", cx=x, cy=y, r=DOT - 0.5, fill=PAPER, stroke=INK, stroke_width=1.6)
    )


def _survivor(age: float, on: _Axes) -> str:
    return _tick(on.x(age), on.form.bottom)


def _tick(x: float, foot: float) -> str:
    return line(x, foot - TICK, x, foot, width=1.6)


def _counts(on: _Axes) -> Iterable[str]:
    """How many are still sound at one age, over their tick, where there is room to say so."""
    form = on.form
    y, taken = (
        form.bottom - TICK - 3,
        [Box.around(on.x(p.age), on.y(p.share_failed), DOT) for p in on.plot.points],
    )
    for age, count in Counter(on.plot.survivors).items():
        half, x = width(str(count), "B612", form.letter) / 2, on.x(age)
        box = Box(x - half - 2, y - form.letter, x + half + 2, y + 2)
        if count > 1 and not any(box.touches(other) for other in taken):
            taken.append(box)
            yield text(str(count), x, y, form.letter, anchor="middle")


def _draw_key(plot: ProbabilityPlot, form: _Form) -> tuple[list[str], float]:
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
    wide, dash = _STROKES[law.kind]
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
        yield (lambda x, y: _disc(x + DOT, y)), 2 * DOT, say("failed")
    if "past_limit" in kinds:
        yield (
            (lambda x, y: _between(x + 10, y, x, x + 20)),
            20,
            say("past its limit, found between two looks"),
        )
    if plot.survivors:
        yield (lambda x, y: _tick(x + 2, y + TICK / 2)), 4, say("still sound at that age, and how many")


def _description(plot: ProbabilityPlot) -> str:
    failed = sum(point.kind == "failed" for point in plot.points)
    past = len(plot.points) - failed
    laws = " ".join(
        say(
            "{law}: shape {shape}, 63 per cent failed by {life} {unit}.",
            law=law.name,
            shape=say_figure(law.beta, 1),
            life=say_figure(law.eta, 0),
            unit=plot.unit,
        )
        for law in plot.lines
    )
    seen = say(
        "{failed} failed, {past} found past the limit, {sound} still sound.",
        failed=failed,
        past=past,
        sound=len(plot.survivors),
    )
    return " ".join((seen, laws, say("The same numbers stand in the table with it.")))
