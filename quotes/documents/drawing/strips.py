"""Pieces of a bar, told apart by how they are filled: solid, ruled, open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from quotes.documents.drawing.svg import INK, PAPER, element, line, rectangle

Fill = Literal["solid", "ruled", "open", "cut", "mark", "line"]
BAR, TALL = 7.0, 12.0
_RULE = 3.0
_LEAST = 1.2
"""Shorter than this a piece would not be seen."""
_EDGE = 1.2


@dataclass(frozen=True, slots=True)
class Strip:
    """A piece of a bar, from one share of its track to another.

    `cut` shows at its end that the bar goes on, `mark` is a small square at its start, `line` stands upright.
    """

    start: float
    end: float
    fill: Fill
    tall: bool = False


def draw_strip(strip: Strip, left: float, middle: float, track: float) -> str:
    """The piece on a track that begins at `left` and is `track` long."""
    x1, x2 = left + strip.start * track, left + strip.end * track
    high = TALL if strip.tall else BAR
    top, long = middle - high / 2, max(x2 - x1, _LEAST)
    if strip.fill == "solid":
        return rectangle(x1, top, long, high, fill=INK)
    if strip.fill == "cut":
        path = f"M{x2 - 7:.1f} {middle - TALL / 2:.1f}l7 {TALL / 2:.1f}l-7 {TALL / 2:.1f}z"
        return element("path", d=path, fill=PAPER, stroke=INK, stroke_width=_EDGE)
    if strip.fill == "mark":
        return rectangle(x1 - 1, middle - 3.5, 7, 7, fill=PAPER, stroke=INK, line_width=1.6)
    if strip.fill == "line":
        return line(x1, middle - TALL / 2, x1, middle + TALL / 2, width=_EDGE)
    outline = rectangle(x1, top, long, high, fill=PAPER, stroke=INK, line_width=_EDGE)
    return outline + (_rules(x1, top, long, high) if strip.fill == "ruled" else "")


def _rules(left: float, top: float, long: float, high: float) -> str:
    count = int(long / _RULE - 0.4)
    if count < 1:
        return ""
    path = "".join(f"M{left + _RULE * (place + 1):.1f} {top:.1f}v{high:.1f}" for place in range(count))
    return element("path", d=path, stroke=INK, stroke_width=1)
