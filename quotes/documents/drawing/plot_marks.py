"""The marks of a probability plot: discs, bars with a ring, ticks, and the strokes of its laws."""

from __future__ import annotations

from quotes.calc.learning.plot import LineKind
from quotes.documents.drawing.svg import INK, PAPER, element, line

DOT, CAP, TICK = 4.5, 4.0, 9.0
"""Radius of a disc, half the end of a bar, height of a tick, in drawing units."""
BAND = "#e4e5e0"
"""Light enough for every mark upon it, and a grey that stays on a black and white printer."""

STROKES: dict[LineKind, tuple[float, str]] = {
    "catalogue": (1.4, "9 5"),
    "shop": (2.2, ""),
    "likelihood": (1.6, "2 4"),
}
"""Width and dashes of the laws: told apart without colour."""


def disc(x: float, y: float) -> str:
    return element("circle", cx=x, cy=y, r=DOT, fill=INK)


def past_limit_bar(x: float, y: float, first: float | None, last: float, edge: float = 0.0) -> str:
    """A ring on a bar from the last good look to the one that found it; from the edge without the first."""
    return (
        line(edge if first is None else first, y, last, y, width=1.4)
        + ("" if first is None else line(first, y - CAP, first, y + CAP, width=1.4))
        + line(last, y - CAP, last, y + CAP, width=1.4)
        + element("circle", cx=x, cy=y, r=DOT - 0.5, fill=PAPER, stroke=INK, stroke_width=1.6)
    )


def tick(x: float, foot: float) -> str:
    return line(x, foot - TICK, x, foot, width=1.6)
