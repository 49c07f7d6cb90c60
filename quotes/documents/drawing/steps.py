"""The marks of the picture: staircases, tolerance boxes, discs and rings, as values with their places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from quotes.calc.sheet.season_values import SeasonPlan
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.drawing.boxes import Box
from quotes.documents.drawing.scale import Scale, money_scale, seasons_scale
from quotes.documents.drawing.shapes import Shape
from quotes.documents.drawing.svg import BLUE, INK, PAPER, SOFT, element, line, rectangle
from quotes.documents.words import OUT_OF

DISC, RING, SQUARE, DIAMOND = 6.5, 3.2, 4.0, 5.0
_BOX, _CAP, _TAIL, _WHISKER = 5.0, 10.0, 18.0, 2.5
_ROOM = 14.0
"""Bands nearer to each other than this can't be told apart; the table of the steps has them all."""


@dataclass(frozen=True, slots=True)
class Axes:
    """Money to the right, seasons finished out of twenty up."""

    money: Scale
    seasons: Scale

    def point(self, gross: float, chance: float) -> tuple[float, float]:
        return self.money.at(gross), self.seasons.at(chance * OUT_OF)

    def height(self, chance: float | None) -> float | None:
        return None if chance is None else self.seasons.at(chance * OUT_OF)


@dataclass(frozen=True, slots=True)
class Ring:
    """A further step, with its band where the sheet knows one."""

    number: int
    x: float
    y: float
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Stair:
    """One option on the drawing: its disc and band, and the steps before and after it.

    One that is opened on the way has no rings, for its steps hold up to the first opening only: its one step
    leads from `unopened`, the same build run through the whole service, to the season with its openings.
    """

    option: Option
    disc: tuple[float, float]
    low: float
    high: float
    corners: tuple[tuple[float, float], ...]
    rings: tuple[Ring, ...]
    unopened: tuple[float, float] | None = None

    def solid(self) -> tuple[Box, ...]:
        """What no label may cover."""
        x, y = self.disc
        return (
            Box.around(x, y, DISC + 1),
            Box(x - _BOX - 1, self.high, x + _BOX + 1, self.low),
            Box(x - _CAP, self.high - 2, x + _CAP, self.high + 2),
            Box(x - _CAP, self.low - 2, x + _CAP, self.low + 2),
            *(Box.around(ring.x, ring.y, RING + 1) for ring in self.rings),
            *((Box.around(*self.unopened, DIAMOND + 1),) if self.unopened else ()),
        )

    def thin(self) -> tuple[Box, ...]:
        """The lines of the staircase and of its bands, which a label had better not cross."""
        return (
            *(
                Box(min(x1, x2) - 1, min(y1, y2) - 1, max(x1, x2) + 1, max(y1, y2) + 1)
                for (x1, y1), (x2, y2) in pairwise(self.corners)
            ),
            *(
                Box(ring.x - 1, ring.high, ring.x + 1, ring.low)
                for ring in self.rings
                if ring.low is not None and ring.high is not None
            ),
        )


def axes(comparison: Comparison, shape: Shape) -> Axes:
    """Scales that hold every mark of the comparison."""
    leave, options = comparison.leave_it, comparison.options
    prices = [leave.gross, *(option.planned_gross.typical for option in options), comparison.budget or 0]
    chances = [leave.chance.value, *(option.chance.low for option in options)]
    for option in options:
        if option.season is not None:
            prices.append(option.gross.typical)
            chances.append(option.season.run_through.value)
            continue
        prices += [step.gross for step in option.ladder]
        chances += [step.chance if step.low is None else step.low for step in option.ladder]
    return Axes(
        money_scale(float(max(prices)), shape.left, shape.right, shape.money_marks),
        seasons_scale(min(chances) * OUT_OF, shape.bottom, shape.top),
    )


def stair(option: Option, on: Axes) -> Stair:
    """Where an option and its ladder stand: treads are money without gain, risers what the next parts buy."""
    if option.season is not None:
        return _season(option, option.season, on)
    points = [on.point(float(step.gross), step.chance) for step in option.ladder]
    corners = points[:1]
    for (_, before), (x, y) in pairwise(points):
        corners += [(x, before), (x, y)]
    if points:
        corners.append((min(points[-1][0] + _TAIL, on.money.stop), points[-1][1]))
    return Stair(
        option=option,
        disc=on.point(float(option.gross.typical), option.chance.value),
        low=on.seasons.at(option.chance.low * OUT_OF),
        high=on.seasons.at(option.chance.high * OUT_OF),
        corners=tuple(corners),
        rings=tuple(
            Ring(step.number, *point, on.height(step.low), on.height(step.high))
            for step, point in zip(option.ladder, points, strict=True)
            if not step.is_option
        ),
    )


def with_room_for_bands(stairs: Sequence[Stair]) -> list[Stair]:
    """The stairs with the band of a step only where it can be told from its neighbours'."""
    places = [x for mark in stairs for x in (mark.disc[0], *(each.x for each in mark.rings))]

    def alone(ring: Ring) -> bool:
        return sum(abs(ring.x - x) < _ROOM for x in places) == 1

    return [
        replace(
            mark,
            rings=tuple(each if alone(each) else replace(each, low=None, high=None) for each in mark.rings),
        )
        for mark in stairs
    ]


def _season(option: Option, season: SeasonPlan, on: Axes) -> Stair:
    """The one step of an option that is opened on the way: what its openings cost, and what they buy."""
    x, y = on.point(float(season.gross.typical), option.chance.value)
    unopened = on.point(float(option.gross.typical), season.run_through.value)
    return Stair(
        option=option,
        disc=(x, y),
        low=on.seasons.at(option.chance.low * OUT_OF),
        high=on.seasons.at(option.chance.high * OUT_OF),
        corners=(unopened, (x, unopened[1]), (x, y)),
        rings=(),
        unopened=unopened,
    )


def draw_stair(mark: Stair) -> str:
    path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in mark.corners)
    steps = element("path", d=path, fill="none", stroke=INK, stroke_width=1.6) if mark.corners else ""
    whiskers = "".join(whisker(each.x, each.high, each.low) for each in mark.rings if each.low and each.high)
    marks = "".join(ring(each.x, each.y) for each in mark.rings)
    return whiskers + steps + marks + (diamond(*mark.unopened) if mark.unopened else "")


def draw_option(mark: Stair) -> str:
    x, y = mark.disc
    return tolerance(x, mark.high, mark.low) + disc(x, y)


def disc(x: float, y: float, radius: float = DISC) -> str:
    return element("circle", cx=x, cy=y, r=radius, fill=BLUE)


def ring(x: float, y: float) -> str:
    return element("circle", cx=x, cy=y, r=RING, fill=PAPER, stroke=INK, stroke_width=1.4)


def whisker(x: float, high: float, low: float) -> str:
    """The band of a step: thinner than that of the option, for it is not what is quoted."""
    return (
        line(x, high, x, low, width=1, stroke=SOFT)
        + line(x - _WHISKER, high, x + _WHISKER, high, width=1, stroke=SOFT)
        + line(x - _WHISKER, low, x + _WHISKER, low, width=1, stroke=SOFT)
    )


def diamond(x: float, y: float) -> str:
    path = f"M{x - DIAMOND:.1f} {y:.1f}l5 -5l5 5l-5 5z"
    return element("path", d=path, fill=PAPER, stroke=INK, stroke_width=1.4)


def square(x: float, y: float) -> str:
    return rectangle(x - SQUARE, y - SQUARE, 2 * SQUARE, 2 * SQUARE, fill=INK)


def tolerance(x: float, high: float, low: float, cap: float = _CAP) -> str:
    """A box with a bar at either end, as a tolerance is drawn."""
    return (
        rectangle(x - _BOX, high, 2 * _BOX, low - high, fill=PAPER, stroke=BLUE)
        + line(x - cap, low, x + cap, low, width=2, stroke=BLUE)
        + line(x - cap, high, x + cap, high, width=2, stroke=BLUE)
    )
