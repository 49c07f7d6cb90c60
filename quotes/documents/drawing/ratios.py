"""Stops seen for one expected, line by line: a mark with its interval on a scale of doublings, 1 ruled."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from catalogue.calc.said import say, say_figure
from quotes.documents.drawing import svg

LEAST, MOST = 1 / 8, 8.0
"""What lies beyond ends there."""
MARKS = ((1 / 8, "⅛"), (1 / 4, "¼"), (1 / 2, "½"), (1.0, "1"), (2.0, "2"), (4.0, "4"), (8.0, "8"))
SIZE, ROW, HEAD, FOOT = 11.0, 26.0, 26.0, 10.0
CAP, RADIUS = 4.0, 4.5
WIDTHS: dict[Literal["wide", "narrow"], tuple[float, float]] = {
    "wide": (680.0, 250.0),
    "narrow": (340.0, 0.0),
}
"""Of the whole, and of the names beside the scale; where there is no room beside, they stand above."""


@dataclass(frozen=True, slots=True)
class Ratio:
    """One line: its name, what was seen for one expected, between what, and whether it is enough to say."""

    name: str
    value: float
    low: float
    high: float
    enough: bool


def draw_ratios(ratios: Sequence[Ratio], shape: Literal["wide", "narrow"]) -> str:
    """The drawing; filled marks say something, open ones stand on too few services."""
    width, names = WIDTHS[shape]
    row = ROW if names else ROW * 1.6
    left, right = names + 14.0, width - 14.0
    height = HEAD + row * len(ratios) + FOOT
    parts = [*_scale(left, right, height)]
    for number, ratio in enumerate(ratios):
        top = HEAD + row * number
        parts += _line(ratio, left, right, top, row, beside=bool(names))
    return svg.drawing(
        f"ratios-{shape}",
        width,
        height,
        title=say("Stops seen for one that was expected"),
        description="; ".join(map(_in_words, ratios)),
        parts=parts,
    )


def _in_words(ratio: Ratio) -> str:
    value, low, high = (say_figure(each, 1) for each in (ratio.value, ratio.low, ratio.high))
    return say("{name}: {value}, {low} to {high}", name=ratio.name, value=value, low=low, high=high)


def _scale(left: float, right: float, height: float) -> Iterable[str]:
    for value, words in MARKS:
        x = _at(value, left, right)
        yield svg.text(words, x, SIZE, SIZE, anchor="middle", bold=value == 1.0)
        stroke, width = (svg.INK, 1.2) if value == 1.0 else (svg.HAIR, 0.6)
        yield svg.line(x, HEAD - 10, x, height - FOOT / 2, width=width, stroke=stroke)


def _line(ratio: Ratio, left: float, right: float, top: float, row: float, *, beside: bool) -> Iterable[str]:
    y = top + (row / 2 if beside else row - 9.0)
    if beside:
        yield svg.text(ratio.name, 0, y + SIZE / 3, SIZE)
    else:
        yield svg.rectangle(0, top + 4, right + 14, SIZE + 3, fill=svg.PAPER)
        yield svg.text(ratio.name, 0, top + SIZE + 4, SIZE)
    start, end = _at(ratio.low, left, right), _at(ratio.high, left, right)
    yield svg.line(start, y, end, y, width=1.6)
    for x in (start, end):
        yield svg.line(x, y - CAP, x, y + CAP, width=1.6)
    fill = svg.INK if ratio.enough else svg.PAPER
    x = _at(ratio.value, left, right)
    yield svg.element("circle", cx=x, cy=y, r=RADIUS, fill=fill, stroke=svg.INK, stroke_width=1.6)


def _at(value: float, left: float, right: float) -> float:
    held = min(MOST, max(LEAST, value))
    return left + (right - left) * math.log(held / LEAST) / math.log(MOST / LEAST)
