"""A sheet of bars: a row for each part, a column for each way of building, all on one scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from quotes.documents.drawing.letters import width, wrapped
from quotes.documents.drawing.strips import BAR, TALL, Strip, draw_strip
from quotes.documents.drawing.svg import HAIR, INK, SOFT, drawing, line, text

FormName = Literal["wide", "narrow"]
_GAP, _PAD, _SWATCH, _BETWEEN = 10.0, 4.0, 18.0, 16.0
_LEADING, _LINE = 1.25, 1.6
_CAP = 0.75
"""How far capitals stand above the base line, as a share of the letter size; what hangs below is the rest."""


@dataclass(frozen=True, slots=True)
class Form:
    """Sizes in drawing units: names stand in a column of their own, or above their bars where it is 0."""

    name: FormName
    width: float
    names: float
    letter: float
    note: float


FORMS: dict[FormName, Form] = {
    "wide": Form("wide", width=560, names=146, letter=12.5, note=12),
    "narrow": Form("narrow", width=340, names=0, letter=13, note=13),
}
"""The narrow one has larger letters: a small phone draws it at 0.85 of its size."""


@dataclass(frozen=True, slots=True)
class TrackCell:
    """What one way makes of one part: the words above the bar, and the bar."""

    words: str
    strips: tuple[Strip, ...] = ()
    bold: bool = False


@dataclass(frozen=True, slots=True)
class TrackRow:
    """One part."""

    name: str
    note: str
    cells: tuple[TrackCell, ...]


@dataclass(frozen=True, slots=True)
class Tracks:
    """All that is drawn. `line_at` is where every bar has an upright line, as a share of its track."""

    heads: tuple[tuple[str, str], ...]
    """Name of each way, and a note under it."""
    rows: tuple[TrackRow, ...]
    key: tuple[tuple[Strip, str], ...]
    line_at: float = 0.0
    line_words: str = ""


def draw_tracks(name: str, tracks: Tracks, form: Form, *, title: str, description: str) -> str:
    """The whole drawing; it is as high as its rows and names need."""
    columns = _columns(tracks, form)
    parts, y = _draw_heads(tracks, columns, form)
    for row in tracks.rows:
        drawn, y = _draw_row(row, tracks, columns, y, form)
        parts += drawn
    key, height = _draw_key(tracks.key, y, form)
    return drawing(
        f"{name}-{form.name}",
        form.width,
        height,
        title=title,
        description=description,
        parts=(*parts, *key),
    )


@dataclass(frozen=True, slots=True)
class _Column:
    left: float
    track: float


def _columns(tracks: Tracks, form: Form) -> tuple[_Column, ...]:
    count = max(len(tracks.heads), 1)
    each = (form.width - form.names) / count
    return tuple(_Column(form.names + each * place + 1, each - _GAP) for place in range(count))


def _line(tracks: Tracks, column: _Column) -> float:
    return column.left + tracks.line_at * column.track


def _draw_heads(tracks: Tracks, columns: Sequence[_Column], form: Form) -> tuple[list[str], float]:
    """Names of the ways with their notes, all standing on one line, and what the upright lines are."""
    blocks = []
    for (head, note), column in zip(tracks.heads, columns, strict=True):
        lines = [(words, True) for words in wrapped(head, "B612", form.letter, column.track)]
        lines += [(words, False) for words in wrapped(note, "B612", form.note, column.track) if words]
        blocks.append(lines)
    high = form.letter * _LEADING
    foot = _PAD + high * max((len(block) for block in blocks), default=0)
    parts = []
    for block, column in zip(blocks, columns, strict=True):
        for place, (words, bold) in enumerate(block):
            y = foot - high * (len(block) - 1 - place) - form.letter * (1 - _CAP)
            size, fill = (form.letter, INK) if bold else (form.note, SOFT)
            parts.append(text(words, column.left, y, size, bold=bold, fill=fill))
    if tracks.line_words:
        foot += form.note * _LEADING
        parts += [_line_words(tracks, column, foot, form) for column in columns]
    foot += _PAD
    return [*parts, line(0, foot, form.width, foot, width=1.4)], foot


def _line_words(tracks: Tracks, column: _Column, foot: float, form: Form) -> str:
    """What the upright lines of a column are, over their middle or as near as the column allows."""
    half = width(tracks.line_words, "B612", form.note) / 2
    x = min(max(_line(tracks, column), column.left + half), column.left + column.track + _GAP / 2 - half)
    return text(tracks.line_words, x, foot - form.note * (1 - _CAP), form.note, anchor="middle", fill=SOFT)


def _draw_row(
    row: TrackRow, tracks: Tracks, columns: Sequence[_Column], top: float, form: Form
) -> tuple[list[str], float]:
    room = (form.names or form.width) - _GAP
    names = [(words, INK) for words in wrapped(row.name, "B612", form.letter, room)]
    names += [(words, SOFT) for words in wrapped(row.note, "B612", form.note, room) if words]
    high, y = form.letter * _LEADING, top + _PAD
    parts = []
    for place, (words, fill) in enumerate(names):
        size = form.letter if fill == INK else form.note
        parts.append(text(words, 0, y + high * place + size * 0.9, size, fill=fill))
    if not form.names:
        y += high * len(names)
    for cell, column in zip(row.cells, columns, strict=True):
        parts.append(text(cell.words, column.left, y + form.note * 0.9, form.note, bold=cell.bold))
        middle = y + form.note * _LEADING + TALL / 2
        parts += [draw_strip(strip, column.left, middle, column.track) for strip in cell.strips]
        x = _line(tracks, column)
        parts.append(line(x, middle - TALL / 2, x, middle + TALL / 2, width=_LINE))
    beside = high * len(names) if form.names else 0.0
    foot = max(y + form.note * _LEADING + TALL, top + _PAD + beside) + _PAD
    return [*parts, line(0, foot, form.width, foot, width=1, stroke=HAIR)], foot


def _draw_key(key: Iterable[tuple[Strip, str]], top: float, form: Form) -> tuple[list[str], float]:
    """The marks explained by their shape, in as many lines as they take."""
    x, y = 0.0, top + _BETWEEN
    parts = []
    for strip, words in key:
        long = _SWATCH + 6 + width(words, "B612", form.note)
        if x > 0 and x + long > form.width:
            x, y = 0.0, y + form.note * 1.6
        parts.append(draw_strip(strip, x + 1, y, _SWATCH))
        parts.append(text(words, x + _SWATCH + 6, y + form.note * 0.36, form.note))
        x += long + _BETWEEN
    return parts, y + BAR + _PAD
