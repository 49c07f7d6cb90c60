"""Where in the engine something is measured, in words: cylinder 2, exhaust left; main journal 3."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from catalogue.calc.engine import EngineType
from catalogue.calc.said import say, to_say

Kind = Literal["whole", "cylinder", "valve", "intake", "exhaust", "main", "rod", "journal", "bolt", "piece"]
WHOLE = ("",)
OF_CYLINDERS = frozenset({"rings", "piston", "piston_pin", "bore", "con_rod", "small_end_bush", "spark_plug"})
OF_VALVES = frozenset({"valve_guide", "valve_spring", "valve_seal", "valve_seat", "shim", "follower"})
BY_COMPONENT: dict[str, Kind] = {
    **dict.fromkeys(OF_CYLINDERS, "cylinder"),
    **dict.fromkeys(OF_VALVES, "valve"),
    "valve_intake": "intake",
    "valve_exhaust": "exhaust",
    "cam_intake": "intake",
    "cam_exhaust": "exhaust",
    "main_bearing": "main",
    "rod_bearing": "rod",
    "rod_bolt": "bolt",
}
PIECES = {
    "clutch_friction": "plate",
    "clutch_steel": "plate",
    "clutch_spring": "spring",
    "shift_fork": "fork",
}


NUMBERED = {
    "cylinder": to_say("cylinder {number}"),
    "rod bolt": to_say("rod bolt {number}"),
    "rod journal": to_say("rod journal {number}"),
    "main journal": to_say("main journal {number}"),
    "plate": to_say("plate {number}"),
    "spring": to_say("spring {number}"),
    "fork": to_say("fork {number}"),
    "piece": to_say("piece {number}"),
    "intake": to_say("intake {number}"),
    "exhaust": to_say("exhaust {number}"),
}
VALVES = (
    to_say("intake"),
    to_say("intake left"),
    to_say("intake middle"),
    to_say("intake right"),
    to_say("exhaust"),
    to_say("exhaust left"),
    to_say("exhaust middle"),
    to_say("exhaust right"),
)
"""Valves of a cylinder. Readings keep them as text, so they are named here to be translated."""


@dataclass(frozen=True, slots=True)
class Measured:
    """What is measured: of which component, how many of it there are, and what the quantity is called."""

    component: str
    count: int
    quantity: str


def kind_of(what: Measured, engine: EngineType) -> Kind:
    """Which places a quantity has; by its words where they say more than its component."""
    known = BY_COMPONENT.get(what.component)
    if known == "valve":
        for side in ("intake", "exhaust"):
            if side in what.quantity:
                return "intake" if side == "intake" else "exhaust"
    if known:
        return known
    if "journal" in what.quantity:
        return "journal"
    return "whole" if what.count <= 1 else "piece"


def places_of(what: Measured, engine: EngineType) -> tuple[str, ...]:
    """Every place of it in this engine, in order; one without a name where there is but one."""
    return _places(kind_of(what, engine), what, engine)


def places_at(kind: Kind, engine: EngineType) -> tuple[str, ...]:
    """Every place of one kind, whatever is measured there."""
    return _places(kind, Measured("", 1, ""), engine)


def _places(kind: Kind, what: Measured, engine: EngineType) -> tuple[str, ...]:
    pieces = engine.pieces
    cylinders = range(1, engine.cylinders + 1)
    if kind == "cylinder":
        return tuple(f"cylinder {number}" for number in cylinders)
    if kind in ("valve", "intake", "exhaust"):
        return _valves(kind, engine)
    if kind == "bolt":
        each = max(pieces.get("rod_bolt", 0) // max(engine.cylinders, 1), 0)
        return tuple(
            f"cylinder {number}, rod bolt {bolt}" for number in cylinders for bolt in range(1, each + 1)
        )
    rods = tuple(f"rod journal {number}" for number in range(1, pieces.get("rod", 0) + 1))
    mains = tuple(f"main journal {number}" for number in range(1, pieces.get("main", 0) + 1))
    if kind == "piece":
        word = PIECES.get(what.component, "piece")
        return tuple(f"{word} {number}" for number in range(1, what.count + 1))
    return {"rod": rods, "main": mains, "journal": rods + mains}.get(kind, WHOLE)


def _valves(kind: Kind, engine: EngineType) -> tuple[str, ...]:
    intake = engine.pieces.get("intake_valve", 0) // max(engine.cylinders, 1)
    exhaust = engine.pieces.get("exhaust_valve", 0) // max(engine.cylinders, 1)
    sides = [("intake", name) for name in _names(intake)] if kind != "exhaust" else []
    sides += [("exhaust", name) for name in _names(exhaust)] if kind != "intake" else []
    return tuple(
        f"cylinder {number}, {side} {name}".strip()
        for number in range(1, engine.cylinders + 1)
        for side, name in sides
    )


def _names(count: int) -> tuple[str, ...]:
    """Seen from the builder's side of the bench, with the exhaust ports away from him."""
    known = {0: (), 1: ("",), 2: ("left", "right"), 3: ("left", "middle", "right")}
    return known.get(count, tuple(str(number) for number in range(1, count + 1)))


def all_places(engine: EngineType) -> tuple[str, ...]:
    """Every place that has a name of its own, for what is seen."""
    nothing = Measured("", 1, "")
    kinds: tuple[Kind, ...] = ("cylinder", "valve", "rod", "main")
    return tuple(place for kind in kinds for place in _places(kind, nothing, engine))


def place_in_words(place: str) -> str:
    """A place as it is said: its number and side in the reader's language.

    >>> place_in_words("cylinder 2, exhaust left"), place_in_words("main journal 3")
    ('cylinder 2, exhaust left', 'main journal 3')
    """
    return ", ".join(_part_in_words(part) for part in place.split(", ")) if place else ""


def _part_in_words(part: str) -> str:
    word, _, number = part.rpartition(" ")
    if word in NUMBERED and number.isdigit():
        return say(NUMBERED[word], number=number)
    return say(part)


def across(places: Sequence[str]) -> int:
    """How many fields stand side by side: the valves of a cylinder, else four.

    >>> across(["cylinder 1, intake left", "cylinder 1, intake right", "cylinder 2, intake left"])
    2
    """
    first, comma, _ = places[0].partition(",")
    return sum(place.partition(",")[0] == first for place in places) if comma else 4
