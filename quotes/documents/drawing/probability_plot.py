"""The probability plot: ages against the share failed, on axes that make a Weibull law a straight line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from itertools import pairwise

from catalogue.calc.said import say, say_figure
from quotes.calc.learning.plot import PlotLine, PlotPoint, ProbabilityPlot
from quotes.documents.drawing.boxes import Box
from quotes.documents.drawing.letters import width
from quotes.documents.drawing.plot_axes import FORMS, Axes
from quotes.documents.drawing.plot_key import draw_key
from quotes.documents.drawing.plot_marks import BAND, DOT, STROKES, TICK, disc, past_limit_bar, tick
from quotes.documents.drawing.svg import HAIR, SOFT, Anchor, drawing, element, line, text
from quotes.documents.drawing.tracks import FormName


def draw_probability_plot(plot: ProbabilityPlot, shape: FormName) -> str:
    """Discs failed, rings found past their limit between two looks, ticks at the foot still sound."""
    form = FORMS[shape]
    on = Axes(plot, form)
    key, height = draw_key(plot, form)
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


def _share_marks(on: Axes) -> Iterable[str]:
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


def _age_marks(on: Axes) -> Iterable[str]:
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


def _band(on: Axes) -> Iterable[str]:
    """Light between its bounds, each with a thin edge where it lies inside the axes."""
    band = on.plot.band
    if band is None:
        return
    edges = [
        [(on.x(age), on.y(share)) for age, share in zip(band.ages, row, strict=True)]
        for row in (band.low, band.high)
    ]
    yield element("polygon", points=polygon_points([*edges[0], *reversed(edges[1])]), fill=BAND)
    for edge in edges:
        for first, last in pairwise(edge):
            if not (first[1] == last[1] and first[1] in {on.form.top, on.form.bottom}):
                yield line(*first, *last, width=0.8, stroke=SOFT)


def polygon_points(places: Iterable[tuple[float, float]]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in places)


def _law(law: PlotLine, on: Axes) -> str:
    (x1, y1), (x2, y2) = _ends(law, on)
    wide, dash = STROKES[law.kind]
    return line(x1, y1, x2, y2, width=wide, dash=dash)


def _ends(law: PlotLine, on: Axes) -> tuple[tuple[float, float], tuple[float, float]]:
    first, last = law.ends
    return (on.x(first[0]), on.y(first[1])), (on.x(last[0]), on.y(last[1]))


def _point(point: PlotPoint, on: Axes) -> str:
    x, y = on.x(point.age), on.y(point.share_failed)
    if point.kind == "failed":
        return disc(x, y)
    first = on.x(point.seen_good_at) if point.seen_good_at else None
    return past_limit_bar(x, y, first, on.x(point.found_at or point.age), edge=on.form.left)


def _survivor(age: float, on: Axes) -> str:
    return tick(on.x(age), on.form.bottom)


def _counts(on: Axes) -> Iterable[str]:
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
