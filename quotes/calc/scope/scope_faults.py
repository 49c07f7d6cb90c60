"""What only a must list can tell: a must left without a signed refusal, a must without a price."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from catalogue.calc.said import say
from quotes.calc.ask.fault import Fault
from quotes.calc.scope.case import Case
from quotes.calc.scope.graph_of import graph_of
from quotes.calc.scope.grounds import Grounds
from quotes.calc.scope.implications import Node
from quotes.calc.scope.must import MustList, must_list, why


def scope_faults(grounds: Mapping[str, Grounds]) -> tuple[Fault, ...]:
    """The faults of every tier, each said once."""
    found = (fault for each in grounds.values() for fault in (*_refusals(each.case), *_unpriced(each)))
    return tuple(dict.fromkeys(found))


def _refusals(case: Case) -> Iterator[Fault]:
    """One fault for each must line that is to stay as it is and may not."""
    if not case.leave:
        return
    musts = must_list(case, graph_of(case, dropping=False), heed_leave=False)
    for code in sorted(case.leave):
        node = _must_node(musts, code)
        component = case.catalogue.components.get(code)
        if component is None or node is None:
            continue
        if component.locks_wheel_or_oils_tyre and case.shop.refuses_unsafe:
            allowed = say(
                "{part}: {hazard}; we do not build it so",
                part=component.name,
                hazard=component.rider_hazards[0],
            )
            yield Fault(_field(case, code), code, allowed)
        elif code not in case.refused:
            reason = why(case, musts.seeds, musts.parents, node).sentence
            allowed = say(
                "{part} must be done. {reason} To leave it, record a signed refusal",
                part=component.name,
                reason=reason,
            )
            yield Fault(_field(case, code), code, allowed)


def _must_node(musts: MustList, code: str) -> Node | None:
    nodes: tuple[Node, ...] = (("new", code), ("done", code))
    return next((node for node in nodes if node in musts.parents), None)


def _field(case: Case, code: str) -> str:
    return f"edits.{case.tier.code}.leave" if code in case.edits.leave else "leave"


def _unpriced(grounds: Grounds) -> Iterator[Fault]:
    case = grounds.case
    for code in sorted(grounds.least.bought):
        if case.part(code) is None:
            name, engine = case.catalogue.components[code].name, case.catalogue.engine_type.name
            allowed = say(
                "the {part} must be renewed and has no price for the {engine}: enter one in the catalogue",
                part=name,
                engine=engine,
            )
            yield Fault(f"catalogue.parts.{code}", say("no price"), allowed)
