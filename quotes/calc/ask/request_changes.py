"""What differs between two requests, field by field, for the two people who changed one draft at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Edits, EngineAsked, Request, Value
from quotes.calc.sheet.issued_values import RevisionChange

_CALLED = {
    "engine.type": to_say("engine type"),
    "engine.delivered": to_say("delivered"),
    "engine.fitted": to_say("tune fitted now"),
    "engine.history": to_say("service so far"),
    "engine.renewed": to_say("renewed since"),
    "engine.carried": to_say("parts with an age of their own"),
    "engine.measured_power": to_say("power on the dyno"),
    "planned.duty": to_say("planned use"),
    "planned.amount": to_say("planned service"),
    "planned.events": to_say("meetings"),
    "planned.first_meeting": to_say("first meeting"),
    "refresh_list": to_say("whole refresh list"),
    "leave": to_say("left"),
    "include": to_say("put in"),
}


def request_changes(before: Request, after: Request) -> tuple[RevisionChange, ...]:
    """The fields that differ, with both values; the day it was worked out on stays out.

    Values are compared, not how they are written: 4100 miles are 4100.00 miles.
    """
    tiers = dict.fromkeys([*before.edits, *after.edits])
    return _changes(_flat(before, tiers), _flat(after, tiers))


def engine_changes(before: EngineAsked, after: EngineAsked) -> tuple[RevisionChange, ...]:
    """The same for an engine's record."""
    return _changes(_parts("engine", before), _parts("engine", after))


def _changes(old: Mapping[str, Any], new: Mapping[str, Any]) -> tuple[RevisionChange, ...]:
    return tuple(
        RevisionChange(what=_called(name), before=_of(name, old[name]), after=_of(name, new[name]))
        for name in old
        if name != "on" and old[name] != new[name]
    )


def _called(name: str) -> str:
    return say(_CALLED[name]) if name in _CALLED else name.replace(".", " ").replace("_", " ")


def _of(name: str, value: Any) -> str:
    if name == "engine.history" and not value:
        return say("not known") if value is None else say("has not run")
    return _said(value)


def _flat(request: Request, tiers: Iterable[str]) -> dict[str, Any]:
    """Every field by its name; engine, planned service and each option's edits field by field."""
    found: dict[str, Any] = {}
    for name in Request.model_fields:
        value = getattr(request, name)
        if name == "edits":
            for tier in tiers:
                found |= _parts(tier, value.get(tier, Edits()))
        elif name in ("engine", "planned"):
            found |= _parts(name, value)
        else:
            found[name] = value
    return found


def _parts(name: str, value: Value) -> dict[str, Any]:
    return {f"{name}.{part}": getattr(value, part) for part in type(value).model_fields}


def _said(value: Any) -> str:
    if value in (None, (), {}, ""):
        return say("nothing")
    if isinstance(value, Value):
        filled = ((part, getattr(value, part)) for part in type(value).model_fields)
        return " ".join(_said(inner) for _, inner in filled if inner not in (None, (), {}, ""))
    if isinstance(value, Mapping):
        return ", ".join(f"{_said(key)} {_said(inner)}" for key, inner in value.items())
    if isinstance(value, tuple):
        return "; ".join(_said(inner) for inner in value)
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    if isinstance(value, bool):
        return say("yes") if value else say("no")
    return str(value).replace("_", " ")
