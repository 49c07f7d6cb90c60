"""A plan: the closed list of what is done to one engine, with the pieces sent out and bought."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.life.draws import Fitted
from quotes.calc.scope.case import DONE, LEFT, NEW, Case
from quotes.calc.scope.implications import Graph, Node, Parents, close
from quotes.calc.scope.must import MustList
from quotes.calc.scope.rules.base import Must
from quotes.calc.work.work_set import included_elsewhere


@dataclass(frozen=True)
class Plan:
    """What is done. `seeds` are the demands and choices, `parents` everything with what brought it."""

    catalogue: EngineCatalogue
    graph: Graph
    seeds: Mapping[Node, Must]
    parents: Parents
    asked_pieces: Mapping[str, int]

    @cached_property
    def _codes(self) -> Mapping[str, set[str]]:
        found: dict[str, set[str]] = {"new": set(), "done": set(), "work": set(), "out": set()}
        for kind, code in self.parents:
            found[kind].add(code)
        return found

    @cached_property
    def new(self) -> frozenset[str]:
        """Components that are new articles afterwards."""
        return frozenset(self._codes["new"])

    @cached_property
    def reconditioned(self) -> frozenset[str]:
        """Components brought back by machine work, without a new article."""
        return frozenset(self._codes["done"] - self.new)

    @cached_property
    def bought(self) -> frozenset[str]:
        """New components that are bought on their own, not brought by another article."""
        return frozenset(
            code
            for code in self.new
            if not any(giver in self.new for giver in self.graph.givers.get(code, ()))
        )

    @cached_property
    def operations(self) -> frozenset[str]:
        """Labour operations, less those that another one of the job includes."""
        work = frozenset(self._codes["work"])
        return work - included_elsewhere(work)

    @cached_property
    def faults(self) -> int:
        """Assembly operations, each with its small chance of a fault of our own."""
        return sum(self.catalogue.operations[o].is_assembly for o in self.operations)

    @cached_property
    def singly(self) -> Mapping[str, int]:
        """Parts taken a few at a time by single operations, where the set is not renewed as a whole."""
        taken: dict[str, int] = {}
        for code in self.operations:
            for use in self.catalogue.operations[code].consumes:
                if use.quantity is not None and use.rule == "always" and use.component not in self.new:
                    taken[use.component] = taken.get(use.component, 0) + use.quantity
        return taken

    @cached_property
    def machine_work(self) -> Mapping[str, int]:
        """Pieces of each machine work sent out: what is shared is counted once, up to all there are."""
        added: dict[str, int] = {}
        least: dict[str, int] = dict(self.asked_pieces)
        for work, pieces in self._sent():
            if pieces is None:
                least[work] = self.catalogue.machine_work[work].quantity
            else:
                added[work] = added.get(work, 0) + pieces
        return {
            work: min(self.catalogue.machine_work[work].quantity, max(least.get(work, 0), added.get(work, 0)))
            for work in self.catalogue.machine_work
            if least.get(work, 0) or added.get(work, 0)
        }

    def _sent(self) -> Iterable[tuple[str, int | None]]:
        for code in self.bought:
            component = self.catalogue.components[code]
            piece = component.machine_work_piece
            pieces = self.catalogue.engine_type.pieces.get(piece) if piece else None
            for work in component.machine_work:
                if work in self.catalogue.machine_work:
                    yield work, pieces
        for code in self.reconditioned:
            recondition = self.catalogue.components[code].recondition
            if recondition is not None:
                for work in recondition.machine_work:
                    yield work, recondition.machine_work_quantity

    def fitted(self, case: Case) -> dict[str, Fitted]:
        """Every component as it goes into the service, for the draws."""
        return {code: fitted[self.level(code)] for code, fitted in case.fitted_levels.items()}

    def level(self, code: str) -> int:
        """Which of its three levels a component is on afterwards."""
        return NEW if code in self.new else DONE if code in self.reconditioned else LEFT

    def with_more(self, extras: Sequence[Must]) -> Plan:
        """The plan with more demands, those that are in it already left out."""
        seeds, reached = dict(self.seeds), set(self.parents)
        asked = {self.graph.settle(extra.node): extra for extra in reversed(extras)}
        for node in dict.fromkeys(self.graph.settle(extra.node) for extra in extras):
            if node not in reached:
                seeds[node] = asked[node]
                reached |= self.graph.brought(node)
        parents = close(self.graph, seeds)
        while missing := [node for node in asked if node not in parents]:
            seeds.update((node, asked[node]) for node in missing)
            parents = close(self.graph, seeds)
        return Plan(self.catalogue, self.graph, seeds, parents, self.asked_pieces)


def plan_of(case: Case, graph: Graph, musts: MustList) -> Plan:
    """The least that may be done: the must list itself."""
    return Plan(case.catalogue, graph, musts.seeds, musts.parents, musts.pieces)
