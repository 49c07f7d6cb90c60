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
        mendable=mendable(case),
        dropped=dropped(case) if dropping else frozenset(),
    )


def mendable(case: Case) -> frozenset[str]:
    """Components that reconditioning would bring back."""
    return frozenset(code for code, each in case.levels.items() if each.reconditioned is not None)


def dropped(case: Case) -> frozenset[str]:
    """Components that are left although they must be renewed, with a signature for it."""
    return case.leave & frozenset(case.refused)
