"""What a build's accepted work does to the engine: parts it renews, parts it reworks, and the work itself."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO
from quotes.calc.bench.parts.picking import AgreedWork, Pick, pick_list
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.scope.implications import Graph, Node, NodeKind, build_graph, close
from quotes.calc.work.work_set import included_elsewhere


@dataclass(frozen=True, slots=True)
class BuildWork:
    """Components that are renewed and reworked, and operations, each in the catalogue's order.

    `numbers` are the part numbers picked, by component; `comes_with` says which article brought a component.
    """

    renewed: tuple[str, ...]
    reworked: tuple[str, ...]
    operations: tuple[str, ...]
    numbers: Mapping[str, str] = field(default_factory=dict)
    comes_with: Mapping[str, str] = field(default_factory=dict)


def work_of(agreed: AgreedWork, catalogue: EngineCatalogue) -> BuildWork:
    """The work of a build: its option, extras ticked, and extra work agreed, with all that they bring.

    What the option left out stays left out, unless what was added later brings it. Every operation brings
    the single-use parts that it takes. A part taken off again by extra work is not renewed by it.
    """
    picks = pick_list(agreed, catalogue)
    off = _taken_off(agreed, picks)
    sold = {*agreed.option.renewed, *(pick.component for pick in picks)} - off
    graph = _graph(agreed, catalogue)
    nodes = _nodes(agreed, catalogue, graph, off)
    renewed = (sold | _codes(nodes, "new")) & catalogue.components.keys()
    brought = _comes_with(renewed, graph)
    renewed |= brought.keys()
    reworked = ({*agreed.option.reconditioned} | _codes(nodes, "done")) - renewed
    operations = _codes(nodes, "work")
    operations -= included_elsewhere(operations)
    picked = {pick.component for pick in picks}
    return BuildWork(
        renewed=tuple(code for code in catalogue.components if code in renewed),
        reworked=tuple(code for code in catalogue.components if code in reworked),
        operations=tuple(code for code in catalogue.operations if code in operations),
        numbers={pick.component: pick.part.number for pick in picks if pick.part},
        comes_with={given: by for given, by in brought.items() if given not in picked},
    )


def _graph(agreed: AgreedWork, catalogue: EngineCatalogue) -> Graph:
    """Parts that the shop may choose to renew are those that were sold: no operation brings them here."""
    mendable = frozenset(code for code, one in catalogue.components.items() if one.recondition)
    return build_graph(catalogue, in_chassis=agreed.in_chassis, policy_parts=False, mendable=mendable)


def _nodes(agreed: AgreedWork, catalogue: EngineCatalogue, graph: Graph, off: Collection[str]) -> set[Node]:
    """All that the option's operations bring, but for what was left, and all that was added brings."""
    asked = sorted({*agreed.option.operations} & catalogue.operations.keys())
    left = agreed.option.left.keys()
    base = {node for node in close(graph, [("work", code) for code in asked]) if node[1] not in left}
    added = ({*agreed.ticked, *_bought(agreed)} - set(off)) & catalogue.components.keys()
    seeds: list[Node] = [("new", code) for code in sorted(added)]
    seeds += [("work", code) for code in sorted(_extra_operations(agreed) & catalogue.operations.keys())]
    return base | set(close(graph, seeds))


def _codes(nodes: Collection[Node], kind: NodeKind) -> set[str]:
    return {code for which, code in nodes if which == kind}


def _comes_with(renewed: Collection[str], graph: Graph) -> dict[str, str]:
    """Components that are part of an article bought for another, with that one."""
    brought = {}
    for given, givers in graph.givers.items():
        if by := next((one for one in givers if one in renewed), None):
            brought[given] = by
    return brought


def _lines(agreed: AgreedWork) -> list[DraftLine]:
    return [line for extra in agreed.extra_work for line in extra.lines]


def _extra_operations(agreed: AgreedWork) -> set[str]:
    return {line.operation for line in _lines(agreed) if line.operation and line.quantity > ZERO}


def _bought(agreed: AgreedWork) -> set[str]:
    """Components of which extra work buys an article."""
    lines = [line for line in _lines(agreed) if line.kind == "part" and line.quantity > ZERO]
    return {line.component for line in lines if line.component}


def _taken_off(agreed: AgreedWork, picks: tuple[Pick, ...]) -> set[str]:
    """Components of which nothing is left to pick once extra work has taken it off."""
    lines = [line for line in _lines(agreed) if line.kind == "part" and line.quantity < ZERO]
    return {line.component for line in lines if line.component} - {pick.component for pick in picks}
