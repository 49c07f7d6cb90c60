"""What brings what: renewing a part needs work, work needs other work and takes parts, and so on.

A node is a pair. ("new", c): component c is a new article. ("done", c): at least reconditioned.
("work", o): labour operation o is done. ("out", m): machine work m is sent out. An edge says that the first
can't be without the second; the same edges close a list by hand and constrain the programme.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property
from typing import Literal

from catalogue.calc.engine import Component, EngineCatalogue
from quotes.calc.work.bought import SUPPLIED_IN

NodeKind = Literal["new", "done", "work", "out"]
Node = tuple[NodeKind, str]
Parents = Mapping[Node, Node | None]
OPENS_THE_CASES: Node = ("work", "cases_split")


@dataclass(frozen=True)
class Graph:
    """Edges between nodes, ways in of which one is needed, and articles that come with others."""

    edges: Mapping[Node, tuple[Node, ...]]
    ways_in: Mapping[str, tuple[tuple[str, ...], ...]]
    """Component -> lists of operations, one list of which must be done."""
    givers: Mapping[str, tuple[str, ...]]
    """Component -> components whose purchase brings it along."""
    hours: Mapping[str, Decimal]
    mendable: frozenset[str]
    """Components that can be reconditioned; for the others, to be done means to be new."""

    @cached_property
    def _brought(self) -> dict[Node, frozenset[Node]]:
        return {}

    def brought(self, node: Node) -> frozenset[Node]:
        """Everything that a node brings by itself."""
        if node not in self._brought:
            found = self._along_edges(self.settle(node))
            open_yet = any(("new", code) in found for code in (*self.ways_in, *self._giving))
            self._brought[node] = frozenset(close(self, [node])) if open_yet else found
        return self._brought[node]

    @cached_property
    def kept(self) -> dict[object, object]:
        """What others have worked out from these implications, by what else it was worked out from."""
        return {}

    @cached_property
    def _giving(self) -> frozenset[str]:
        return frozenset(giver for givers in self.givers.values() for giver in givers)

    @cached_property
    def _reached(self) -> dict[Node, frozenset[Node]]:
        return {}

    def _along_edges(self, node: Node) -> frozenset[Node]:
        """What is reached by edges alone; where it holds no way in to choose and no giver, it is all."""
        found: set[Node] = set()
        todo = [node]
        while todo:
            at = todo.pop()
            if at in self._reached:
                found |= self._reached[at]
            elif at not in found:
                found.add(at)
                todo += self.edges.get(at, ())
        self._reached[node] = frozenset(found)
        return self._reached[node]

    def settle(self, node: Node) -> Node:
        """The node itself, or renewal where reconditioning can't be had."""
        return ("new", node[1]) if node[0] == "done" and node[1] not in self.mendable else node


def build_graph(
    catalogue: EngineCatalogue,
    *,
    in_chassis: bool,
    policy_parts: bool,
    mendable: frozenset[str],
    dropped: frozenset[str] = frozenset(),
) -> Graph:
    """The implications of one engine. `dropped` components are never brought in by another."""
    edges: dict[Node, tuple[Node, ...]] = {}
    for code, component in catalogue.components.items():
        edges["new", code] = _of_renewal(component, catalogue, dropped, mendable)
        if code in mendable:
            edges["done", code] = tuple(("work", o) for o in component.access_operations)
    for code, operation in catalogue.operations.items():
        required = operation.requires + (operation.requires_in_chassis if in_chassis else ())
        taken = tuple(
            ("new", use.component)
            for use in operation.consumes
            if use.quantity is None
            and (use.rule == "always" or policy_parts)
            and use.component not in dropped
            and use.component in catalogue.components
        )
        edges["work", code] = tuple(("work", o) for o in required + operation.undo) + taken
    for code, work in catalogue.machine_work.items():
        edges["out", code] = tuple(("work", o) for o in work.needs_operations if o in catalogue.operations)
    return Graph(
        edges=edges,
        ways_in={c.code: c.access_any_of for c in catalogue.components.values() if c.access_any_of},
        givers=_givers(catalogue),
        hours={code: operation.hours for code, operation in catalogue.operations.items()},
        mendable=mendable,
    )


def _of_renewal(
    component: Component, catalogue: EngineCatalogue, dropped: frozenset[str], mendable: frozenset[str]
) -> tuple[Node, ...]:
    operations = component.access_operations + component.with_operations
    companions = (*component.companions_on_renewal, *_brings(component, catalogue))
    nodes: list[Node] = [("done", component.code)] if component.code in mendable else []
    nodes += [("work", o) for o in operations]
    nodes += [("new", c) for c in companions if c in catalogue.components and c not in dropped]
    nodes += [
        ("done" if c in mendable else "new", c)
        for c in component.recondition_on_renewal
        if c in catalogue.components and c not in dropped
    ]
    nodes += [("out", m) for m in component.machine_work if m in catalogue.machine_work]
    return tuple(nodes)


def _givers(catalogue: EngineCatalogue) -> dict[str, tuple[str, ...]]:
    givers: dict[str, tuple[str, ...]] = {}
    for component in catalogue.components.values():
        for given in _brings(component, catalogue):
            if given in catalogue.components:
                givers[given] = (*givers.get(given, ()), component.code)
    return givers


def _brings(component: Component, catalogue: EngineCatalogue) -> tuple[str, ...]:
    """What is part of the article bought for a component."""
    block = catalogue.engine_type.block
    supplied = (
        one.component
        for one in SUPPLIED_IN
        if one.article == component.code and one.only_block in ("", block)
    )
    return tuple(dict.fromkeys((*component.comes_with, *supplied)))


def close(graph: Graph, seeds: Iterable[Node], *, ways_in: bool = True) -> dict[Node, Node | None]:
    """Everything that the seeds bring, each with the node that brought it first (None for a seed).

    Where there are several ways in, one that the job already holds serves, else the one with the fewest
    hours; without `ways_in` none is chosen yet. An article that comes with another brings no work of its own.
    """
    if not ways_in:
        graph = replace(graph, ways_in={})
    seeds = tuple(graph.settle(seed) for seed in seeds)
    parents: dict[Node, Node | None] = {}
    _spread(graph, dict.fromkeys(seeds), parents)
    given = {c for c, givers in graph.givers.items() if any(("new", g) in parents for g in givers)}
    if given:
        parents = {}
        _spread(
            graph, dict.fromkeys(seeds), parents, given=frozenset(given - {c for k, c in seeds if k == "new"})
        )
    return parents


def _spread(
    graph: Graph,
    start: Mapping[Node, Node | None],
    parents: dict[Node, Node | None],
    given: frozenset[str] = frozenset(),
) -> None:
    edges = graph.edges
    todo = _taken(start, parents)
    while todo:
        for node in todo:  # grows on the way
            targets = edges.get(node, ())
            if given and node[0] == "new" and node[1] in given:
                targets = (("done", node[1]),) if node[1] in graph.mendable else ()
            for target in targets:
                if target not in parents:
                    parents[target] = node
                    todo.append(target)
        todo = _taken(_missing_way_in(graph, parents, given), parents)


def _taken(start: Mapping[Node, Node | None], parents: dict[Node, Node | None]) -> list[Node]:
    """What of these was not there yet, now that it is."""
    fresh = [node for node in start if node not in parents]
    parents.update((node, start[node]) for node in fresh)
    return fresh


def _missing_way_in(
    graph: Graph, parents: Mapping[Node, Node | None], given: frozenset[str]
) -> dict[Node, Node | None]:
    for component, ways in graph.ways_in.items():
        node: Node = ("new", component)
        if node not in parents or component in given:
            continue
        if any(all(("work", o) in parents for o in way) for way in ways):
            continue
        way = min(ways, key=lambda each: way_hours(graph, each, parents))
        return {("work", o): node for o in way}
    return {}


def way_hours(graph: Graph, way: tuple[str, ...], held: Parents) -> Decimal:
    """Hours that a way in adds to what is held."""
    reached: dict[Node, Node | None] = dict(held)
    before = set(reached)
    todo: deque[Node] = deque(("work", o) for o in way)
    while todo:
        node = todo.popleft()
        if node in reached:
            continue
        reached[node] = None
        todo.extend(graph.edges.get(node, ()))
    return sum((graph.hours[n[1]] for n in reached if n not in before and n[0] == "work"), Decimal(0))


def chain(parents: Parents, node: Node) -> tuple[Node, ...]:
    """The way from the first cause to a node, the node last."""
    steps: list[Node] = [node]
    while (parent := parents[steps[-1]]) is not None:
        steps.append(parent)
    return tuple(reversed(steps))
