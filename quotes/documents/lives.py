"""Life used and left, part by part, under every way of building: the drawing and its table."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from django.utils.safestring import mark_safe

from catalogue.calc.said import say, to_say
from quotes.calc.sheet.life_values import LifeBar
from quotes.calc.sheet.values import Option
from quotes.documents.drawing.strips import Strip
from quotes.documents.drawing.tracks import FORMS, FormName, TrackCell, TrackRow, Tracks, draw_tracks
from quotes.documents.figures import FigureRow, Figures, Way, address_of
from quotes.documents.words import NO_BREAK, first_large, inside, listed, low_to_high, plain_name

DRAWN = 10
"""How many parts are drawn; the table has them all."""
LEAST_REACH, MOST_REACH = 1.25, 2.5
"""How far beyond the planned life the scale goes, at least and at most; a longer bar is cut and says so."""
MOST_SAID = 999
CAPTION = to_say("Per cent of planned life used, before and after")
Bars = dict[str, LifeBar]


def life_used(ways: Sequence[Way], name: str = "lives") -> Figures | None:
    """What runs out first, in whichever way, stands first. None where a sheet is too old to know."""
    if not all(way.lives for way in ways) or not ways:
        return None
    columns = [{bar.component: bar for bar in way.lives} for way in ways]
    codes = _nearest_end_first(columns)
    rows = [_table_row(code, ways, columns) for code in codes]
    return Figures(
        caption=say(CAPTION),
        heads=tuple(way.name for way in ways),
        rows=tuple(rows[:DRAWN]),
        rest=tuple(rows[DRAWN:]),
        notes=_notes(ways, columns),
        wide=mark_safe(life_picture(ways, "wide", name)),
        narrow=mark_safe(life_picture(ways, "narrow", name)),
    )


def life_picture(ways: Sequence[Way], shape: FormName, name: str = "lives") -> str:
    """Bars of life used: solid before the planned service, ruled by it, taller past the planned life."""
    columns = [{bar.component: bar for bar in way.lives} for way in ways]
    codes = _nearest_end_first(columns)[:DRAWN]
    reach = _reach(columns, codes)
    back = any(bars[code].fate == "reconditioned" for bars in columns for code in codes if code in bars)
    tracks = Tracks(
        heads=tuple((way.name, "") for way in ways),
        rows=tuple(_row(code, columns, reach) for code in codes),
        key=tuple((strip, say(words)) for strip, words in _KEY + (_BACK if back else ())),
        line_at=1.0 / reach,
        line_words=f"100{NO_BREAK}%",
    )
    title = say("Life used of the parts that run out first, before the planned service and after it")
    return draw_tracks(name, tracks, FORMS[shape], title=title, description=_description(ways, codes))


_KEY: tuple[tuple[Strip, str], ...] = (
    (Strip(0.0, 1.0, "solid"), to_say("used before")),
    (Strip(0.0, 1.0, "ruled"), to_say("used by this service")),
    (Strip(0.5, 0.5, "line"), to_say("planned life")),
    (Strip(0.0, 1.0, "ruled", tall=True), to_say("past it")),
)
_BACK: tuple[tuple[Strip, str], ...] = ((Strip(0.3, 0.3, "mark"), to_say("brought back by machine work")),)


def _nearest_end_first(columns: Iterable[Bars]) -> list[str]:
    found: dict[str, list[LifeBar]] = {}
    for bars in columns:
        for code, bar in bars.items():
            found.setdefault(code, []).append(bar)

    def nearest(code: str) -> tuple[float, float, str]:
        return min(bar.services_left for bar in found[code]), -max(b.at_end for b in found[code]), code

    return sorted(found, key=nearest)


def _reach(columns: Iterable[Bars], codes: Iterable[str]) -> float:
    codes = list(codes)
    most = max((bars[code].at_end for bars in columns for code in codes if code in bars), default=0.0)
    return min(max(most * 1.02, LEAST_REACH), MOST_REACH)


def _row(code: str, columns: Sequence[Bars], reach: float) -> TrackRow:
    name, note = _named(code, columns)
    return TrackRow(name, note, tuple(_cell(bars.get(code), reach) for bars in columns))


def _table_row(code: str, ways: Sequence[Way], columns: Sequence[Bars]) -> FigureRow:
    name, note = _named(code, columns)
    cells = []
    for bars in columns:
        bar = bars.get(code)
        back = bar is not None and bar.fate == "reconditioned"
        cells.append(say("{words}, brought back", words=_words(bar)) if back else _words(bar))
    keys = (
        (address_of(way), f"life_used:{code}" if code in bars else "")
        for way, bars in zip(ways, columns, strict=True)
    )
    return FigureRow(name, note, tuple(cells), tuple(keys))


def _named(code: str, columns: Iterable[Bars]) -> tuple[str, str]:
    """The part's name, and how its age is known where that wants saying."""
    bars = [each[code] for each in columns if code in each]
    note = say("measured") if any(bar.measured for bar in bars) else ""
    if any(not bar.known for bar in bars) and not _all_guessed(columns):
        note = say("age not known")
    return first_large(plain_name(bars[0].name)), note


def _all_guessed(columns: Iterable[Bars]) -> bool:
    """Whether no age at all is known of what stays; then it is said once, and not at every part."""
    return not any(bar.known and bar.fate != "renewed" for bars in columns for bar in bars.values())


def _notes(ways: Sequence[Way], columns: Sequence[Bars]) -> tuple[str, ...]:
    notes = []
    if _all_guessed(columns):
        notes.append(say("Its history is not known: every part is counted half used until it is measured."))
    if any(isinstance(way, Option) and way.season for way in ways):
        notes.append(say("Where an option is opened on the way, its bars end at the first opening."))
    return tuple(notes)


def _cell(bar: LifeBar | None, reach: float) -> TrackCell:
    if bar is None:
        return TrackCell(_words(None))
    pieces = [
        *_pieces(0.0, bar.at_start, "solid", reach),
        *_pieces(bar.at_start, bar.at_end, "ruled", reach),
    ]
    if bar.fate == "reconditioned":
        pieces.append(Strip(0.0, 0.0, "mark"))
    if bar.at_end > reach:
        pieces.append(Strip(0.9, 1.0, "cut"))
    return TrackCell(_words(bar), tuple(pieces), bold=bar.at_end >= 1.0)


def _pieces(start: float, end: float, fill: str, reach: float) -> Iterable[Strip]:
    """One piece up to the planned life and a taller one past it."""
    for low, high, tall in ((0.0, 1.0, False), (1.0, reach, True)):
        a, b = max(start, low), min(end, high)
        if b > a:
            yield Strip(a / reach, b / reach, "solid" if fill == "solid" else "ruled", tall)


def _words(bar: LifeBar | None) -> str:
    """Per cent before and after: "67 to 111", "new to 44"."""
    if bar is None:
        return "\N{EN DASH}"
    start, end = _per_cent(bar.at_start), _per_cent(bar.at_end)
    if bar.fate == "renewed":
        return say("new to {end}", end=end)
    return start if start == end else low_to_high(start, end)


def _per_cent(share: float) -> str:
    whole = math.floor(share * 100 + 0.5 + 1e-9)
    return str(whole) if whole <= MOST_SAID else f"{MOST_SAID}+"


def _description(ways: Sequence[Way], codes: Sequence[str]) -> str:
    """How many of the parts drawn pass their planned life in each way, by name."""
    told = []
    for way in ways:
        bars = [bar for bar in way.lives if bar.component in codes]
        past = [inside(plain_name(bar.name)) for bar in bars if bar.at_end >= 1.0]
        if past:
            told.append(
                say("{way}: past its planned life by the end {parts}.", way=way.name, parts=listed(past))
            )
        else:
            told.append(say("{way}: past its planned life by the end is none of these.", way=way.name))
    return " ".join((*told, say("The same numbers stand in the table with it.")))
