"""What differs between two requests, field by field, for the two people who changed one draft at once."""

from __future__ import annotations

from typing import Any

from quotes.calc.request import Request
from quotes.calc.sheet import Change

_CALLED = {
    "engine.type": "engine type",
    "engine.delivered": "delivered",
    "engine.fitted": "tune fitted now",
    "engine.history": "service so far",
    "engine.renewed": "renewed since",
    "planned.duty": "planned use",
    "planned.amount": "planned service",
    "planned.events": "meetings",
    "planned.first_meeting": "first meeting",
    "refresh_list": "whole refresh list",
    "leave": "left",
    "include": "put in",
}
_APART = frozenset({"engine", "planned", "edits"})
"""Groups that are told apart by what is in them; all else is compared as one."""


def request_changes(before: Request, after: Request) -> tuple[Change, ...]:
    """The fields that differ, with both values; the day it was worked out on stays out."""
    old, new = _flat(before), _flat(after)
    return tuple(
        Change(
            what=_CALLED.get(name, name.replace(".", " ").replace("_", " ")),
            before=old[name],
            after=new[name],
        )
        for name in dict.fromkeys([*old, *new])
        if name != "on" and old.setdefault(name, "nothing") != new.setdefault(name, "nothing")
    )


def _flat(request: Request) -> dict[str, str]:
    plain = request.model_dump(mode="json", by_alias=True)
    found: dict[str, str] = {}
    for name, value in plain.items():
        if name == "edits":
            for tier, edits in value.items():
                found |= {f"{tier} {part}": _said(inner) for part, inner in edits.items()}
        elif name in _APART:
            found |= {f"{name}.{part}": _said(inner) for part, inner in value.items()}
        else:
            found[name] = _said(value)
    return found


def _said(value: Any) -> str:
    if value is None or value in ([], {}):
        return "nothing"
    if isinstance(value, dict):
        return ", ".join(f"{key} {_said(inner)}" for key, inner in value.items() if inner is not None)
    if isinstance(value, list):
        return "; ".join(_said(inner) for inner in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value).replace("_", " ")
