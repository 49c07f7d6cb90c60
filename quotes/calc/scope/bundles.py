"""What can be bought together on the way up, with what each bundle brings: its gain and price in one product.

A bundle is one component, or all that share one way in: opening an engine pays for several together. The
gain of a node stands by itself: what is renewed counts as reconditioned first, where it can be, then as new.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING, cast

import numpy as np
from numpy.typing import NDArray

from quotes.calc.scope.decide import Scope
from quotes.calc.scope.hazards import Hazards
from quotes.calc.scope.implications import Graph, Node

if TYPE_CHECKING:
    from scipy.sparse import csr_array

FREE = 1.0
"""A bundle that costs nothing is weighed as if it cost one unit of money."""

Bundle = tuple[Node, ...]
Vector = NDArray[np.float64]


class Shape:
    """Which nodes each bundle holds and brings, and what comes with what; whatever tune and price."""

    def __init__(self, scope: Scope) -> None:
        from scipy.sparse import csr_array  # slow to import: only where it is used

        self.all = tuple(_bundles(scope))
        brought = [_brought(scope, bundle) for bundle in self.all]
        self.nodes = sorted(frozenset().union(*brought))
        self.column = {node: number for number, node in enumerate(self.nodes)}
        size = len(self.all), len(self.nodes)
        self.brings = np.array([self.held(each) for each in brought]).reshape(size)
        own = np.array([self.held(each) for each in self.all]).reshape(size)
        # A bundle brings a few nodes of many: as rows of what they hold they are weighed many times sooner,
        # and added up in the same order on every machine.
        self.own_rows, self.brings_rows = csr_array(own), csr_array(self.brings)
        self._name_givers(scope.graph)
        self.free = self.brings @ self.givers.T > 0.0

    def held(self, nodes: Collection[Node]) -> Vector:
        """1 for each node that is among these."""
        held = np.zeros(len(self.nodes))
        column = self.column
        held[[column[node] for node in nodes if node in column]] = 1.0
        return held

    def _name_givers(self, graph: Graph) -> None:
        """Columns of what comes with others, a row each of those; what is new need not be brought back."""
        found: dict[Node, tuple[str, ...]] = {("done", c): (c,) for c in graph.mendable}
        found.update((("new", code), givers) for code, givers in graph.givers.items())
        given = [node for node in found if node in self.column]
        rows = [self.held([("new", giver) for giver in found[node]]) for node in given]
        self.given = [self.column[node] for node in given]
        self.givers = np.array(rows).reshape(len(given), len(self.nodes))


def shape_of(scope: Scope) -> Shape:
    """The shape of a scope's bundles, shared by all that have the same implications and things for sale."""
    kept = scope.graph.kept
    key = "bundles", frozenset(scope.brings)
    found = kept[key] = kept.get(key) or Shape(scope)
    return cast("Shape", found)


class Bundles:
    """The bundles of one scope as rows, all nodes that any brings as columns."""

    def __init__(self, scope: Scope) -> None:
        self.scope = scope
        self.shape = shape = shape_of(scope)
        self.all, self.nodes, self.brings, self.held = shape.all, shape.nodes, shape.brings, shape.held
        self._own, self._brings = shape.own_rows, shape.brings_rows

    def within(self, pool: Collection[Node]) -> NDArray[np.bool_]:
        """Which bundles hold nothing but what is in the pool."""
        return np.array([all(node in pool for node in bundle) for bundle in self.all], dtype=bool)

    def gains(self, of: Mapping[str, Hazards], fault: float) -> Vector:
        """Hazard that each node saves by itself; work costs a fault of our own where it is assembly."""
        operations, found = self.scope.case.catalogue.operations, []
        for kind, code in self.nodes:
            each, gain = of.get(code), 0.0
            if kind == "work":
                gain = -fault if operations[code].is_assembly else 0.0
            elif kind != "out" and each is not None:
                back = each.left if each.done is None else each.done
                gain = back - each.new if kind == "new" else each.left - back
            found.append(gain)
        return np.array(found)

    @cached_property
    def _quick(self) -> Vector:
        quick = {**self.scope.pricing.quick, **self._back}
        return np.array([quick.get(node, 0.0) for node in self.nodes])

    @property
    def _back(self) -> dict[Node, float]:
        """Price of bringing each component back by machine work."""
        case, found = self.scope.case, dict[Node, float]()
        for code in self.scope.graph.mendable:
            recondition = case.catalogue.components[code].recondition
            if recondition is None:
                continue
            for work in recondition.machine_work:
                pieces = recondition.machine_work_quantity or case.catalogue.machine_work[work].quantity
                price = float(self.scope.pricing.machine_work_piece(work)) * pieces
                found["done", code] = found.get(("done", code), 0.0) + price
        return found

    @cached_property
    def _prices(self) -> csr_array:
        """Shape of `brings`: what each node adds to the price of each bundle; given articles cost nothing."""
        from scipy.sparse import csr_array

        prices = self.brings * self._quick
        prices[:, self.shape.given] *= ~self.shape.free
        return csr_array(prices)

    def best(
        self, held: Vector, allowed: NDArray[np.bool_], gains: Vector, needed: float = np.inf
    ) -> int | None:
        """The bundle that saves most of what is `needed` for its money; None where none saves anything."""
        gain = np.minimum(self._brings @ ((1.0 - held) * gains), needed)
        worth = np.where(self._open(held) & allowed & (gain > 0.0), gain / self._cost(held), 0.0)
        found = int(np.argmax(worth)) if len(worth) else 0
        return found if len(worth) and worth[found] > 0.0 else None

    def _open(self, held: Vector) -> NDArray[np.bool_]:
        """Bundles of which something is not held."""
        return np.asarray(self._own @ (1.0 - held) > 0.0)

    def _cost(self, held: Vector) -> Vector:
        free = np.maximum(held, self._given(held))
        return np.asarray(np.maximum(self._prices @ (1.0 - free), FREE))

    def _given(self, held: Vector) -> Vector:
        """1 for each article that comes with one that is held."""
        given = np.zeros_like(held)
        given[self.shape.given] = (self.shape.givers @ held) > 0.0
        return given

    def together(self, rows: Collection[int], held: Vector, gains: Vector) -> tuple[float, float]:
        """Hazard that these bundles save together on top of what is held, and what they cost."""
        added = (1.0 - held) * self.brings[list(rows)].max(axis=0, initial=0.0)
        given = self._given(np.maximum(held, added))
        return float(added @ gains), float((added * (1.0 - given)) @ self._quick)

    def inside(self, rows: Collection[int], held: Vector) -> list[int]:
        """Every bundle of one component that these bring whole."""
        brought = np.maximum(held, self.brings[list(rows)].max(axis=0))
        whole = (self.brings <= brought).all(axis=1) & self._open(held)
        return [row for row, each in enumerate(whole) if each and len(self.all[row]) == 1]

    def alone(self, rows: Collection[int], held: Vector, gains: Vector) -> tuple[Vector, Vector]:
        """What each of these bundles, and no other of them, saves and costs."""
        brought = self.brings[list(rows)] * (1.0 - held)
        only = brought * (brought.sum(axis=0) == 1.0)
        given = self._given(np.maximum(held, brought.max(axis=0)))
        return only @ gains, only @ ((1.0 - given) * self._quick)


def _bundles(scope: Scope) -> Iterable[Bundle]:
    groups: dict[tuple[str, ...], list[Node]] = {}
    for code in sorted(scope.brings):
        yield (("new", code),)
        way = scope.case.catalogue.components[code].access_operations
        groups.setdefault(way, []).append(("new", code))
    for code in sorted(scope.graph.mendable):
        yield (("done", code),)
    yield from (tuple(group) for group in groups.values() if len(group) > 1)


def _brought(scope: Scope, bundle: Bundle) -> frozenset[Node]:
    return frozenset().union(*(scope.graph.brought(node) for node in bundle))
