"""The shapes of the picture: wide for the desk, narrow for a phone, lower for the first page on paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

ShapeName = Literal["wide", "narrow", "paper"]


@dataclass(frozen=True, slots=True)
class Shape:
    """Sizes in drawing units; the plot lies between `left`, `right`, `top` and `bottom`.

    The narrow shape has larger letters because a small phone draws it at 0.85 of its size, and letters are
    never to fall under 11 px.
    """

    name: ShapeName
    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    money_marks: int
    letter: float
    note: float
    option_name: float
    legend: tuple[tuple[float, float], ...]
    """Where the four entries of the legend stand: x, and y below the plot."""

    @property
    def line(self) -> float:
        return self.letter * 1.28


SHAPES: dict[ShapeName, Shape] = {
    "wide": Shape(
        name="wide",
        width=560,
        height=430,
        left=44,
        right=546,
        top=52,
        bottom=346,
        money_marks=6,
        letter=12.5,
        note=12,
        option_name=16,
        legend=((44, 72), (150, 72), (292, 72), (408, 72)),
    ),
    "narrow": Shape(
        name="narrow",
        width=340,
        height=430,
        left=28,
        right=334,
        top=54,
        bottom=328,
        money_marks=4,
        letter=13,
        note=13,
        option_name=16,
        legend=((8, 68), (160, 68), (8, 92), (160, 92)),
    ),
    "paper": Shape(
        name="paper",
        width=560,
        height=336,
        left=44,
        right=546,
        top=52,
        bottom=262,
        money_marks=6,
        letter=12.5,
        note=12,
        option_name=16,
        legend=((44, 62), (150, 62), (292, 62), (408, 62)),
    ),
}
