"""Labels of the picture: what they say, and where they stand so that none touches another."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations, permutations

from quotes.documents.drawing.boxes import Box, along, anywhere, around, beside, place
from quotes.documents.drawing.letters import Face, width
from quotes.documents.drawing.shapes import Shape
from quotes.documents.drawing.svg import INK, PAPER, SOFT, Anchor, line, rectangle, text

_PAD = 3.0
_FAR = 26.0
"""A label further off than this gets a thin line to its mark."""
_NUMBER_REACH = 14.0
"""A number further off than this would be read as a neighbour's."""
_LEFT_OUT = 1000.0
_SWAPPED = 60.0
_RUN_UNDER = 120.0
_NAME_LETTERS = 16


@dataclass(frozen=True, slots=True)
class Words:
    """One line of a label."""

    content: str
    size: float
    face: Face = "B612"
    bold: bool = False
    fill: str = INK

    @property
    def width(self) -> float:
        return width(self.content, self.face, self.size)


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of words that belong to a mark."""

    mark: Box
    lines: tuple[Words, ...]
    pad: float = _PAD
    reach: float = 200
    """How far from its mark it may stand."""
    on_line: bool = False
    """It belongs to a level or upright line and may stand anywhere along it."""

    @property
    def size(self) -> tuple[float, float]:
        return (
            max(words.width for words in self.lines) + 2 * self.pad,
            sum(words.size * 1.28 for words in self.lines) + self.pad,
        )


def option_label(mark: Box, name: str, prices: Sequence[str], finishes: str, shape: Shape) -> Label:
    """Name, price and chance of an option; a long name takes more lines."""
    names = tuple(
        Words(part, shape.option_name, "Besley") for part in textwrap.wrap(name, _NAME_LETTERS) or [name]
    )
    told = (Words(price, shape.letter) for price in prices)
    return Label(mark, (*names, *told, Words(finishes, shape.letter, bold=True)))


def line_label(line: Box, content: str, shape: Shape) -> Label:
    return Label(line, (Words(content, shape.letter),), on_line=True)


def plain_label(mark: Box, lines: Sequence[str], shape: Shape) -> Label:
    return Label(mark, tuple(Words(content, shape.letter) for content in lines))


def number_label(mark: Box, number: int, shape: Shape) -> Label:
    return Label(mark, (Words(str(number), shape.note, fill=SOFT),), pad=1, reach=_NUMBER_REACH)


Placed = tuple[tuple[Label, Box], ...]


def place_all(
    first: Sequence[Label],
    then: Sequence[Label],
    *,
    frame: Box,
    discs: Sequence[Box],
    solid: Sequence[Box],
    thin: Sequence[Box],
) -> Placed:
    """Each label with its place; one that finds no free place is left out, for the table has it too.

    Labels move apart, marks never do. `first` are tried in every order, so that none is driven far off by
    another that could as well have stood elsewhere, and are given any free place in the end: the others
    make room for them if they must, and where bands leave none at all only `discs` stay free. `then` take
    what room is left; where that is none for the words of a line, all is tried again with these in place.
    """
    placed = _placed(first, then, frame=frame, discs=discs, solid=solid, thin=thin)
    lines = [label for label in then if label.on_line]
    if not _without(lines, placed):
        return placed
    kept = _in_order(lines, frame, solid, thin)[1]
    taken = [box for _, box in kept]
    rest = [label for label in then if not label.on_line]
    again = _placed(first, rest, frame=frame, discs=[*discs, *taken], solid=[*solid, *taken], thin=thin)
    return placed if _without(first, again) else (*kept, *again)


def _placed(
    first: Sequence[Label],
    then: Sequence[Label],
    *,
    frame: Box,
    discs: Sequence[Box],
    solid: Sequence[Box],
    thin: Sequence[Box],
) -> Placed:
    tried = [_in_order(order, frame, solid, thin) for order in permutations(first)]
    _, placed = min(tried, key=lambda outcome: outcome[0] + _untidy(outcome[1]))
    if left_over := _without(first, placed):
        placed += _wherever(left_over, frame, [*solid, *(box for _, box in placed)])
    for marks in (solid, discs):
        if _without(first, placed):
            placed = max((_wherever(order, frame, marks) for order in permutations(first)), key=len)
    taken = [*solid, *(box for _, box in placed)]
    return (*placed, *_in_order(then, frame, taken, thin)[1])


def _wherever(labels: Sequence[Label], frame: Box, solid: Sequence[Box]) -> list[tuple[Label, Box]]:
    """Each label in the free place nearest to its mark, over lines if need be."""
    placed: list[tuple[Label, Box]] = []
    for label in labels:
        taken = [*solid, *(box for _, box in placed)]
        if found := place(anywhere(label.size, label.mark, frame), frame=frame, solid=taken, thin=()):
            placed.append((label, found[1]))
    return placed


def _untidy(placed: Sequence[tuple[Label, Box]]) -> float:
    """What labels in the wrong order cost, and lines to far marks that run under another label."""
    return _SWAPPED * _swaps(placed) + _RUN_UNDER * sum(
        _runs_under(label, box, other) for (label, box), (_, other) in permutations(placed, 2)
    )


def _runs_under(label: Label, box: Box, other: Box) -> bool:
    ends = _tether_ends(label.mark, box)
    if ends is None:
        return False
    (x1, y1), (x2, y2) = ends
    steps = [step / 16 for step in range(17)]
    return any(Box.around(x1 + (x2 - x1) * s, y1 + (y2 - y1) * s, 1).touches(other) for s in steps)


def _swaps(placed: Sequence[tuple[Label, Box]]) -> int:
    """How many pairs of labels stand the other way round than their marks, left to right."""
    pairs = combinations(placed, 2)
    return sum(
        (one.mark.left - other.mark.left) * (box.left - other_box.left) < 0
        for (one, box), (other, other_box) in pairs
    )


def _without(labels: Sequence[Label], placed: Sequence[tuple[Label, Box]]) -> list[Label]:
    done = [label for label, _ in placed]
    return [label for label in labels if label not in done]


def _in_order(
    labels: Sequence[Label], frame: Box, solid: Sequence[Box], thin: Sequence[Box]
) -> tuple[float, list[tuple[Label, Box]]]:
    taken, cost = list(solid), 0.0
    placed: list[tuple[Label, Box]] = []
    for label in labels:
        found = place(_places(label), frame=frame, solid=taken, thin=thin)
        if found is None:
            cost += _LEFT_OUT
            continue
        cost += found[0]
        taken.append(found[1])
        placed.append((label, found[1]))
    return cost, placed


def _places(label: Label) -> Iterable[tuple[float, Box]]:
    if not label.on_line:
        return around(label.size, label.mark, label.reach)
    level = label.mark.right - label.mark.left > label.mark.bottom - label.mark.top
    return along(label.size, label.mark) if level else beside(label.size, label.mark)


def draw_ground(label: Label, box: Box) -> str:
    """Paper under the words, which cuts the grid line behind them, and a line to a mark far off."""
    ground = rectangle(box.left, box.top, box.right - box.left, box.bottom - box.top, fill=PAPER)
    return ground if label.on_line else _tether(label.mark, box) + ground


def _tether(mark: Box, box: Box) -> str:
    ends = _tether_ends(mark, box)
    return line(*ends[0], *ends[1], width=1, stroke=SOFT) if ends else ""


def _tether_ends(mark: Box, box: Box) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """From the mark to the nearest point of a label that stands far off; None for one close by."""
    x, y = (mark.left + mark.right) / 2, (mark.top + mark.bottom) / 2
    near_x, near_y = min(max(x, box.left), box.right), min(max(y, box.top), box.bottom)
    if abs(near_x - x) + abs(near_y - y) < _FAR:
        return None
    return (x, y), (near_x, near_y)


def draw_label(label: Label, box: Box) -> str:
    """The words, set towards their mark."""
    anchor, x = _set(label, box)
    y, drawn = box.top + label.pad / 2, []
    for words in label.lines:
        y += words.size
        drawn.append(
            text(
                words.content,
                x,
                y,
                words.size,
                anchor=anchor,
                face=words.face,
                bold=words.bold,
                fill=words.fill,
            )
        )
        y += words.size * 0.28
    return "".join(drawn)


def _set(label: Label, box: Box) -> tuple[Anchor, float]:
    if label.on_line:
        return "end", box.right - label.pad
    middle = (label.mark.left + label.mark.right) / 2
    if box.left >= middle:
        return "start", box.left + label.pad
    if box.right <= middle:
        return "end", box.right - label.pad
    return "middle", (box.left + box.right) / 2
