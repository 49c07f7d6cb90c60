"""The implications that hold for one case."""

from __future__ import annotations

from quotes.calc.scope.case import Case
from quotes.calc.scope.implications import Graph, build_graph


def graph_of(case: Case, *, dropping: bool = True) -> Graph:
    """The implications of a case; what is refused is never brought in by another, if `dropping`."""
    return build_graph(
        case.catalogue,
        in_chassis=case.request.engine.delivered == "in_chassis",
        policy_parts=case.shop.renew_policy_parts,
        mendable=frozenset(c for c, levels in case.levels.items() if levels.reconditioned is not None),
        dropped=case.leave & frozenset(case.refused) if dropping else frozenset(),
    )
