"""What stands in the way of leaving a line: a must without a signed refusal, or the owner's own word."""

from __future__ import annotations

from collections.abc import Iterator

from quotes.calc.case import Case
from quotes.calc.fault import Fault
from quotes.calc.implications import Graph, Node
from quotes.calc.must import MustList, must_list, why


def refusal_faults(case: Case, graph: Graph) -> Iterator[Fault]:
    """One fault for each must line that is to stay as it is and may not.

    `graph` must be one in which nothing has been dropped.
    """
    if not case.leave:
        return
    musts = must_list(case, graph, heed_leave=False)
    for code in sorted(case.leave):
        node = _must_node(musts, code)
        component = case.catalogue.components.get(code)
        if component is None or node is None:
            continue
        if component.locks_wheel_or_oils_tyre and case.shop.refuses_unsafe:
            allowed = f"{component.name}: {component.rider_hazards[0]}; we do not build it so"
            yield Fault(_field(case, code), code, allowed)
        elif code not in case.refused:
            reason = why(case, musts.seeds, musts.parents, node).sentence
            allowed = f"{component.name} must be done. {reason} To leave it, record a signed refusal"
            yield Fault(_field(case, code), code, allowed)


def _must_node(musts: MustList, code: str) -> Node | None:
    nodes: tuple[Node, ...] = (("new", code), ("done", code))
    return next((node for node in nodes if node in musts.parents), None)


def _field(case: Case, code: str) -> str:
    return f"edits.{case.tier.code}.leave" if code in case.edits.leave else "leave"
