"""Bench work that a fixed price holds already, so that hours clocked on it are not charged once more."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.bench.parts.picking import operations_of
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.scope.implications import Node, build_graph, close
from quotes.calc.sheet.values import Option


def work_of_renewing(
    components: Collection[str],
    option: Option,
    catalogue: EngineCatalogue,
    *,
    in_chassis: bool,
    policy_parts: bool,
) -> frozenset[str]:
    """Operations that renewing these components takes beyond the option's own work."""
    wanted: list[Node] = [("new", component) for component in components if component in catalogue.components]
    if not wanted:
        return frozenset()
    mendable = frozenset(code for code, one in catalogue.components.items() if one.recondition)
    graph = build_graph(catalogue, in_chassis=in_chassis, policy_parts=policy_parts, mendable=mendable)
    own = operations_of(option, catalogue)
    seeds: list[Node] = [*wanted, *(("work", code) for code in sorted(own))]
    return frozenset(code for kind, code in close(graph, seeds) if kind == "work") - own


def holds_its_work(lines: Iterable[DraftLine]) -> bool:
    """Whether extra work charges its work at hours that no clock changes."""
    labour = [line for line in lines if line.kind == "labour"]
    return any(line.quantity > 0 and not line.operation for line in labour)
