"""Boxes on a drawing, and a place for a label near its mark where it touches nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

_DISTANCES = (5, 9, 14, 20, 28, 38, 50, 64, 80, 100, 125, 155, 190)
"""How far from the mark a label may go, nearest first, in drawing units."""
_DIRECTIONS = (
    *((1, 1), (-1, -1), (1, -1), (-1, 1), (1, 0), (-1, 0), (0, -1), (0, 1)),
    *((0.5, -1), (-0.5, -1), (0.5, 1), (-0.5, 1)),
)
"""Right and left, below and above; a half is flush with the mark's side. The first free wins among equals."""
_GRID = 6
_SLIDE, _OFF_LINE = 12, (0, 7, 14)
_CROSSING = 18
"""What crossing a stair costs, in units of distance: better a little further off than across a line."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle; y runs down."""

    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def around(cls, x: float, y: float, reach: float) -> Box:
        return cls(x - reach, y - reach, x + reach, y + reach)

    def touches(self, other: Box) -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def within(self, frame: Box) -> bool:
        return (
            self.left >= frame.left
            and self.right <= frame.right
            and self.top >= frame.top
            and self.bottom <= frame.bottom
        )


def place(
    candidates: Iterable[tuple[float, Box]], *, frame: Box, solid: Sequence[Box], thin: Sequence[Box]
) -> tuple[float, Box] | None:
    """The cheapest free place for a label, with its cost; None where all are taken.

    `candidates` come with their distance, nearest first.

    It never touches `solid` and never leaves `frame`; it crosses `thin` only where going round costs more.
    """
    best: tuple[float, Box] | None = None
    for distance, box in candidates:
        if best is not None and distance >= best[0]:
            break
        if not box.within(frame) or any(box.touches(other) for other in solid):
            continue
        cost = distance + _CROSSING * sum(box.touches(other) for other in thin)
        if best is None or cost < best[0]:
            best = (cost, box)
    return best


def around(size: tuple[float, float], mark: Box, reach: float) -> Iterator[tuple[float, Box]]:
    """Places for a label of `size` on all sides of `mark`, out to `reach`."""
    wide, high = size
    middle_x, middle_y = (mark.left + mark.right) / 2, (mark.top + mark.bottom) / 2
    for distance in (each for each in _DISTANCES if each <= reach):
        for across, down in _DIRECTIONS:
            left = {
                1: mark.right + distance,
                0.5: mark.left,
                0: middle_x - wide / 2,
                -0.5: mark.right - wide,
                -1: mark.left - distance - wide,
            }[across]
            # A corner place slides with the distance, from level with the mark to well above or below it.
            slide = distance - 9 if abs(across) == 1 else distance
            top = {1: mark.bottom + slide, -1: mark.top - slide - high, 0: middle_y - high / 2}[down]
            yield distance, Box(left, top, left + wide, top + high)


def along(size: tuple[float, float], mark: Box) -> list[tuple[float, Box]]:
    """Places for a label of `size` above and below a level line, those at its right end first."""
    wide, high = size
    found = []
    for step in range(int((mark.right - mark.left - wide) / _SLIDE) + 1):
        right = mark.right - step * _SLIDE
        for off in _OFF_LINE:
            for top in (mark.top - high - 1 - off, mark.bottom + 2 + off):
                found.append((step * _SLIDE + off, Box(right - wide, top, right, top + high)))
    return sorted(found, key=lambda each: each[0])


def beside(size: tuple[float, float], mark: Box) -> list[tuple[float, Box]]:
    """Places for a label of `size` left and right of an upright line, those at its foot first."""
    wide, high = size
    found = []
    for step in range(int((mark.bottom - mark.top - high) / _SLIDE) + 1):
        bottom = mark.bottom - step * _SLIDE
        for off in _OFF_LINE:
            for left in (mark.right + 3 + off, mark.left - wide - 3 - off):
                found.append((step * _SLIDE + off, Box(left, bottom - high, left + wide, bottom)))
    return sorted(found, key=lambda each: each[0])


def anywhere(size: tuple[float, float], mark: Box, frame: Box) -> list[tuple[float, Box]]:
    """Places for a label of `size` all over the frame, those near `mark` first: the last resort."""
    wide, high = size
    found = []
    for row in range(int((frame.bottom - frame.top - high) / _GRID) + 1):
        for column in range(int((frame.right - frame.left - wide) / _GRID) + 1):
            left, top = frame.left + column * _GRID, frame.top + row * _GRID
            away = abs(left + wide / 2 - mark.left) + abs(top + high / 2 - mark.top)
            found.append((away, Box(left, top, left + wide, top + high)))
    return sorted(found, key=lambda each: each[0])
