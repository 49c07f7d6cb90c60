"""How a rebuilt engine is run in: by what was renewed, by rings and bore, and by the manual where entered.

What is written here is common practice without a source; the maker's manual for that engine governs.
"""

from __future__ import annotations

from collections.abc import Collection
from decimal import Decimal
from typing import Literal

from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Unit, Value

Rings = Literal["thin_steel", "cast_iron", "not_renewed"]
Bore = Literal["plated", "iron"]
RINGS_IN_WORDS: dict[Rings, str] = {
    "thin_steel": to_say("steel or nitrided rings"),
    "cast_iron": to_say("cast-iron or faced rings"),
    "not_renewed": to_say("rings not renewed"),
}
BORE_IN_WORDS: dict[Bore, str] = {"plated": to_say("plated bore"), "iron": to_say("iron or steel liner")}
COMMON_PRACTICE = to_say("common practice, no source")
MANUAL_GOVERNS = to_say("Where the maker's manual says otherwise, the manual governs.")

RING_PARTS = frozenset({"rings", "piston", "bore"})
BEARINGS = frozenset({"rod_bearing", "main_bearing", "con_rod", "crankshaft", "small_end_bush"})
VALVE_PARTS = frozenset(
    {"valve_intake", "valve_exhaust", "valve_seat", "cylinder_head", "cam_intake", "cam_exhaust", "follower"}
)
CLAMPED = frozenset({"head_gasket", "head_bolt", "cylinder_head", "gasket_kit_top", "base_gasket"})


class RunningInFigures(Value):
    """Figures for one engine type, in `unit`: the manual's, or the workshop's own."""

    unit: Unit
    rev_limit_pct: int
    revs_until: Decimal
    oil_at: Decimal
    recheck_at: Decimal | None = None
    manual: str = ""
    """Empty: this workshop's own practice."""
    page: str = ""
    words: str = ""


class RunningIn(Value):
    """The card for the rider. Amounts are service since the hand-over, in `unit`."""

    kind: str
    """Rings and bore in words; empty where neither is new."""
    unit: Unit
    rev_limit_pct: int
    """Per cent of the rev limit that it is kept under; 100: no limit."""
    revs_until: Decimal
    oil_at: Decimal
    recheck_at: Decimal | None
    recheck: tuple[str, ...]
    steps: tuple[str, ...]
    source: str


def running_in(
    renewed: Collection[str],
    *,
    rings: Rings,
    bore: Bore,
    by_hours: bool,
    rule: RunningInFigures | None = None,
) -> RunningIn:
    """The card for an engine of which these components are new; `rule` stands before common practice.

    `by_hours` for engines whose lives are told in hours.
    """
    new = frozenset(renewed)
    ringed = rings != "not_renewed" and bool(new & RING_PARTS)
    usual = _usual(ringed, bool(new & BEARINGS), rings, bore, by_hours)
    figures = rule or usual
    return RunningIn(
        kind=f"{say(RINGS_IN_WORDS[rings])}, {say(BORE_IN_WORDS[bore])}" if ringed else "",
        unit=figures.unit,
        rev_limit_pct=figures.rev_limit_pct,
        revs_until=figures.revs_until,
        oil_at=figures.oil_at,
        recheck_at=(figures.recheck_at or usual.recheck_at)
        if _in_same(figures, usual)
        else figures.recheck_at,
        recheck=_recheck(new),
        steps=(*_own_words(figures), *(_bedding(rings, bore) if ringed else _without_rings(new))),
        source=_source(rule),
    )


def _in_same(figures: RunningInFigures, usual: RunningInFigures) -> bool:
    return figures.unit == usual.unit


def _usual(ringed: bool, bearings: bool, rings: Rings, bore: Bore, by_hours: bool) -> RunningInFigures:
    """Amounts by what beds in: iron takes longer than plating, bearings longer than nothing."""
    if ringed:
        miles, hours = (300, 3) if _slow(rings, bore) else (150, 2)
    else:
        miles, hours = (100, 1) if bearings else (20, 1)
    unit: Unit = "h" if by_hours else "mi"
    return RunningInFigures(
        unit=unit,
        rev_limit_pct=70 if ringed or bearings else 100,
        revs_until=Decimal(hours if by_hours else miles),
        oil_at=Decimal(hours if by_hours else miles),
        recheck_at=Decimal(5 if by_hours else 400),
    )


def _slow(rings: Rings, bore: Bore) -> bool:
    """Iron takes longer to bed in than steel on plating."""
    return rings == "cast_iron" or bore == "iron"


def _bedding(rings: Rings, bore: Bore) -> tuple[str, ...]:
    pulls = say(
        "Then pull in short bursts in a middle gear, from a third to two thirds of the rev "
        "limit, and close the throttle each time: load beds the rings, idling glazes the bore."
    )
    oil = (
        say("Run it on the oil that is in it: no friction modifiers and no fully synthetic oil before then.")
        if _slow(rings, bore)
        else say("Run it on the oil that is in it until the first change.")
    )
    return (
        say(
            "Warm it to working temperature at varying revs before any load, let it cool down "
            "wholly, and do that twice more."
        ),
        pulls,
        say("In this time hold no throttle opening for long, never let it labour, never open it fully."),
        oil,
    )


def _without_rings(new: Collection[str]) -> tuple[str, ...]:
    first = say("Warm it to working temperature before any load, and look for leaks when it is hot.")
    if BEARINGS & frozenset(new):
        return (
            first,
            say("The bearings are new: raise load and revs step by step, and watch the oil pressure."),
        )
    return (first, say("Rings and bearings were not renewed: nothing has to bed in."))


def _recheck(new: frozenset[str]) -> tuple[str, ...]:
    """What is looked at again, by what was undone."""
    found = []
    if new & CLAMPED:
        found.append(say("head bolts or nuts, cold, only where the maker lets them be tightened again"))
    if new & VALVE_PARTS:
        found.append(say("valve clearances, cold"))
    if "clutch_friction" in new:
        found.append(say("clutch free play"))
    return (*found, say("leaks, drain plug, lockwire, engine mounts"))


def _own_words(figures: RunningInFigures) -> tuple[str, ...]:
    return tuple(line.strip() for line in figures.words.splitlines() if line.strip())


def _source(rule: RunningInFigures | None) -> str:
    if rule is None:
        return say(COMMON_PRACTICE)
    if not rule.manual:
        return say("figures as this workshop does it; the rest common practice, no source")
    if not rule.page:
        return say("figures from {manual}; the rest common practice, no source", manual=rule.manual)
    return say(
        "figures from {manual}, page {page}; the rest common practice, no source",
        manual=rule.manual,
        page=rule.page,
    )
