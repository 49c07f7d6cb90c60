"""What stops engines, cause by cause, under every way of building: the drawing and its table."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from django.utils.safestring import mark_safe

from catalogue.calc.said import say, to_say
from quotes.calc.sheet.chance_values import HazardShare
from quotes.calc.sheet.sentences import COUNTS_IN_100
from quotes.calc.sheet.values import LeaveIt
from quotes.documents.drawing.strips import Fill, Strip
from quotes.documents.drawing.tracks import FORMS, FormName, TrackCell, TrackRow, Tracks, draw_tracks
from quotes.documents.figures import FigureRow, Figures, Way, address_of, is_the_rest
from quotes.documents.words import first_large, inside, plain_name, risk_count, risk_in_words, without_about

DRAWN = 10
"""How many causes are drawn at most; all that is left stands together in one more."""
AT_LEAST = 3
"""So many are drawn even where none of them stops one engine in 100."""
REST = to_say("All else together")
CAPTION = to_say("Engines stopped in 100, by cause")
IN_THE_REST = to_say("in the rest")


@dataclass(frozen=True, slots=True)
class _Cause:
    """One cause: its share under each way, None where it is not among the largest there."""

    name: str
    shares: tuple[HazardShare | None, ...]

    @property
    def component(self) -> str:
        """Its code, where a sheet knows it."""
        return next((share.component for share in self.shares if share and share.component), "")

    @property
    def most(self) -> float:
        return max(share.stops_in_100 for share in self.shares if share)


def where_it_goes(ways: Sequence[Way], name: str = "causes") -> Figures:
    """The largest causes first, in whichever way they are largest."""
    causes = _causes(ways)
    return Figures(
        caption=say(CAPTION),
        heads=tuple(way.name for way in ways),
        rows=tuple(_table_row(cause, key, ways) for cause, key in zip(causes, _keys(causes), strict=True)),
        rest=(),
        notes=(),
        wide=mark_safe(causes_picture(ways, "wide", name)),
        narrow=mark_safe(causes_picture(ways, "narrow", name)),
    )


def causes_picture(ways: Sequence[Way], shape: FormName, name: str = "causes") -> str:
    """Bars of engines stopped in 100: solid for a part left, open for one renewed, ruled for the others."""
    causes = _causes(ways)
    most = max((cause.most for cause in causes), default=0.0) or 1.0
    tracks = Tracks(
        heads=tuple((way.name, say("{count} in all", count=_stopped(way))) for way in ways),
        rows=tuple(_row(cause, ways, most) for cause in causes),
        key=tuple((strip, say(words)) for strip, words in _KEY),
    )
    title = say("What stops the engine: engines in 100, by cause and way of building")
    return draw_tracks(name, tracks, FORMS[shape], title=title, description=_description(ways))


_KEY: tuple[tuple[Strip, str], ...] = (
    (Strip(0.0, 1.0, "solid"), to_say("part left as it is")),
    (Strip(0.0, 1.0, "open"), to_say("renewed or brought back")),
    (Strip(0.0, 1.0, "ruled"), to_say("no single part")),
)
_FILLS: dict[str, Fill] = {"left": "solid", "renewed": "open", "brought back": "open"}
"""By the state of a share; what has another one is no single part."""


def _causes(ways: Iterable[Way]) -> list[_Cause]:
    """The largest causes, and all else; both in every way."""
    named = [{share.name: share for share in _told(way)} for way in ways]
    found = {name: _Cause(name, tuple(each.get(name) for each in named)) for each in named for name in each}
    largest = sorted(found.values(), key=lambda cause: (-cause.most, cause.name))[:DRAWN]
    drawn = [cause for place, cause in enumerate(largest) if place < AT_LEAST or _counts(cause)]
    rest = tuple(_rest(way, {cause.name for cause in drawn}) for way in ways)
    return [*drawn, _Cause(REST, rest)]


def _counts(cause: _Cause) -> bool:
    """Whether it stops an engine in 100, or is our own doing: that is never left unsaid."""
    ours = any(share.state not in _FILLS for share in cause.shares if share)
    return ours or cause.most >= COUNTS_IN_100


def _told(way: Way) -> list[HazardShare]:
    return [share for share in way.where_the_chance_goes if not is_the_rest(share)]


def _rest(way: Way, drawn: set[str]) -> HazardShare:
    """What the way stops for by causes that are not drawn, named on its sheet or not."""
    others = [share for share in way.where_the_chance_goes if is_the_rest(share) or share.name not in drawn]
    return HazardShare(name=REST, state="", stops_in_100=sum(share.stops_in_100 for share in others))


def _row(cause: _Cause, ways: Sequence[Way], most: float) -> TrackRow:
    cells = []
    for share, words in zip(cause.shares, _cells(cause, ways), strict=True):
        strips: tuple[Strip, ...] = ()
        if share is not None and share.stops_in_100 > 0:
            strips = (Strip(0.0, share.stops_in_100 / most, _FILLS.get(share.state, "ruled")),)
        cells.append(TrackCell(words, strips))
    return TrackRow(_said(cause.name), "", tuple(cells))


def _cells(cause: _Cause, ways: Sequence[Way]) -> Iterable[str]:
    """Whole engines in 100; what is not among the largest of a way is under 1 where those are already."""
    for share, way in zip(cause.shares, ways, strict=True):
        if share is not None:
            yield _count(share.stops_in_100)
        elif any(each and each.state not in _FILLS for each in cause.shares):
            yield say("none")
        else:
            least = min((each.stops_in_100 for each in _told(way) if each.state in _FILLS), default=0.0)
            yield say("under 1") if least < COUNTS_IN_100 else say(IN_THE_REST)


def _table_row(cause: _Cause, key: str, ways: Sequence[Way]) -> FigureRow:
    """The same words with what becomes of the part, for who can't see how the bar is filled."""
    cells = []
    for way, words in zip(ways, _cells(cause, ways), strict=True):
        state = _states(way).get(cause.name)
        cells.append(f"{words}, {say(state)}" if state else words)
    keys = tuple((address_of(way), key) for way in ways)
    return FigureRow(_said(cause.name), "", tuple(cells), keys)


def _keys(causes: Sequence[_Cause]) -> Iterator[str]:
    """By which each cause opens: its component's, or all but the others. None on sheets too old to know."""
    for cause in causes:
        if cause.name != REST:
            yield f"stops:{cause.component}" if cause.component else ""
        else:
            drawn = [each.component for each in causes if each.name != REST]
            yield f"others:{','.join(drawn)}" if all(drawn) else ""


def _states(way: Way) -> dict[str, str]:
    """What becomes of the parts that a way does not leave, by their names."""
    if isinstance(way, LeaveIt):
        return {}
    back = {reason.name: to_say("brought back") for reason in way.reconditioned.values()}
    return back | {reason.name: to_say("new") for reason in way.renewed.values()}


def _count(in_100: float) -> str:
    return without_about(risk_count(in_100))


def _stopped(way: Way) -> str:
    return _count(100.0 * (1.0 - way.chance.value))


def _said(name: str) -> str:
    return say(REST) if name == REST else first_large(plain_name(name))


def _description(ways: Sequence[Way]) -> str:
    """How many each way stops in all, and what stops most."""
    told = []
    for way in ways:
        worst = max(_told(way), key=lambda share: share.stops_in_100, default=None)
        stopped = risk_in_words(100.0 * (1.0 - way.chance.value))
        if worst is None:
            told.append(say("{way}: {stopped}.", way=way.name, stopped=stopped))
        else:
            cause = inside(plain_name(worst.name))
            told.append(
                say("{way}: {stopped}, most often for {cause}.", way=way.name, stopped=stopped, cause=cause)
            )
    return " ".join((*told, say("The same numbers stand in the table with it.")))
