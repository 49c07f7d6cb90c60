"""The rows of the programme that every solution obeys: implications, ways in, machine work, coming back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from quotes.calc.scope.case import Case
from quotes.calc.scope.implications import Graph, Node
from quotes.calc.work.work_set import INCLUDED_THERE

Key = tuple[str, str]
"""A variable: its kind and the code it stands for."""
Terms = Sequence[tuple[Key, float]]


@dataclass
class Rows:
    """Linear rows in the making: coefficients by variable, and bounds."""

    columns: dict[Key, int] = field(default_factory=dict)
    entries: list[tuple[int, int, float]] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)

    def column(self, key: Key) -> int:
        return self.columns.setdefault(key, len(self.columns))

    def add(self, terms: Terms, *, at_least: float = -np.inf, at_most: float = np.inf) -> None:
        row = len(self.low)
        self.entries += [(row, self.column(key), value) for key, value in terms]
        self.low.append(at_least)
        self.high.append(at_most)

    def implies(self, cause: Key, effect: Key) -> None:
        if cause != effect:
            self.add([(effect, 1.0), (cause, -1.0)], at_least=0.0)


class ScopeRows:
    """The rows of one case. Variables are new, bought, done, work, alone, way, out, singly and back."""

    def __init__(
        self, case: Case, graph: Graph, *, singly: Iterable[str], coming_back: Iterable[str]
    ) -> None:
        self.case = case
        self.graph = graph
        self.rows = Rows()
        self._name_columns()
        self._implications()
        self._ways_in()
        self._included()
        self._machine_work()
        self._bought_singly(frozenset(singly))
        self._coming_back(coming_back)

    def new(self, code: str) -> Key:
        return ("new", code)

    def bought(self, code: str) -> Key:
        """Bought on its own; the same as new unless another article may bring it."""
        return ("bought", code) if code in self.graph.givers else ("new", code)

    def done(self, code: str) -> Key:
        return ("done", code) if code in self.graph.mendable else ("new", code)

    def variable(self, node: Node) -> Key:
        kind, code = node
        if kind == "new":
            return self.new(code)
        if kind == "done":
            return self.done(code)
        return (kind, code)

    def charged(self, operation: str) -> str:
        """The kind of variable that an operation's hours are charged by."""
        return "alone" if operation in self.larger else "work"

    @cached_property
    def larger(self) -> Mapping[str, str]:
        """Operations that are no work of their own where a larger one is done, with that one."""
        found = ((each.operation, each.larger) for each in INCLUDED_THERE)
        return {code: larger for code, larger in found if {code, larger} <= self.graph.hours.keys()}

    def _name_columns(self) -> None:
        for code in sorted(self.case.catalogue.components):
            for key in (self.new(code), self.bought(code), self.done(code)):
                self.rows.column(key)
        for code in sorted(self.case.catalogue.operations):
            self.rows.column(("work", code))
        for code in sorted(self.case.catalogue.machine_work):
            self.rows.column(("out", code))

    def _implications(self) -> None:
        for node, targets in sorted(self.graph.edges.items()):
            kind, code = node
            if kind == "out":
                continue
            for target in sorted(targets):
                if target[0] == "out":
                    continue
                brought = kind == "new" and target != ("done", code)
                cause = self.bought(code) if brought else self.variable(node)
                self.rows.implies(cause, self.variable(target))
        for code, givers in sorted(self.graph.givers.items()):
            terms: list[tuple[Key, float]] = [(self.bought(code), 1.0), (self.new(code), -1.0)]
            terms += [(self.new(giver), 1.0) for giver in sorted(givers)]
            self.rows.add(terms, at_least=0.0)
            self.rows.implies(self.bought(code), self.new(code))

    def _ways_in(self) -> None:
        for code, ways in sorted(self.graph.ways_in.items()):
            choices: list[Key] = [("way", f"{code}:{number}") for number in range(len(ways))]
            for choice, way in zip(choices, ways, strict=True):
                for operation in way:
                    self.rows.implies(choice, ("work", operation))
            self.rows.add([*((choice, 1.0) for choice in choices), (self.bought(code), -1.0)], at_least=0.0)

    def _included(self) -> None:
        """Variable alone: 1 where an operation is done and not as part of the larger one."""
        for code, larger in sorted(self.larger.items()):
            terms = [(("alone", code), 1.0), (("work", code), -1.0), (("work", larger), 1.0)]
            self.rows.add(terms, at_least=0.0)

    def _machine_work(self) -> None:
        catalogue = self.case.catalogue
        shared: dict[str, list[tuple[Key, float]]] = {}
        for code, component in sorted(catalogue.components.items()):
            for work in component.machine_work:
                if work in catalogue.machine_work:
                    cause = [(self.bought(code), 1.0)]
                    self._sends(work, cause, self._pieces(component.machine_work_piece), shared)
            if code in self.graph.mendable and component.recondition is not None:
                for work in component.recondition.machine_work:
                    cause = [(self.done(code), 1.0), (self.new(code), -1.0)]
                    self._sends(work, cause, component.recondition.machine_work_quantity, shared)
        for work, terms in shared.items():
            self.rows.add([(("out", work), 1.0), *((key, -value) for key, value in terms)], at_least=0.0)

    def _pieces(self, piece: str | None) -> int | None:
        return None if piece is None else self.case.catalogue.engine_type.pieces.get(piece)

    def _sends(
        self,
        work: str,
        cause: Sequence[tuple[Key, float]],
        pieces: int | None,
        shared: dict[str, list[tuple[Key, float]]],
    ) -> None:
        """`cause` sends out some pieces, added up with the others' pieces, or all of them, counted once."""
        machine_work = self.case.catalogue.machine_work[work]
        if pieces is not None:
            shared.setdefault(work, []).extend((key, value * pieces) for key, value in cause)
        else:
            terms = [(key, -value * machine_work.quantity) for key, value in cause]
            self.rows.add([(("out", work), 1.0), *terms], at_least=0.0)
        for operation in machine_work.needs_operations:
            if operation in self.case.catalogue.operations:
                self.rows.add([(("work", operation), 1.0), *((k, -v) for k, v in cause)], at_least=0.0)

    def _bought_singly(self, priced: frozenset[str]) -> None:
        """Parts that single operations take a few of, unless the whole set is new anyway."""
        takes: dict[str, list[tuple[Key, float]]] = {}
        for code, operation in sorted(self.case.catalogue.operations.items()):
            for use in operation.consumes:
                if use.quantity is not None and use.rule == "always" and use.component in priced:
                    takes.setdefault(use.component, []).append((("work", code), float(use.quantity)))
        for component, terms in takes.items():
            whole = sum(value for _, value in terms)
            self.rows.add(
                [(("singly", component), 1.0), (self.new(component), whole), *((k, -v) for k, v in terms)],
                at_least=0.0,
            )

    def _coming_back(self, components: Iterable[str]) -> None:
        """Variable back: 1 where all work that reaches the component is done and it is left."""
        for code in sorted(components):
            access = self.case.catalogue.components[code].access_operations
            terms: list[tuple[Key, float]] = [(("back", code), 1.0), (self.done(code), 1.0)]
            terms += [(("work", operation), -1.0) for operation in access]
            self.rows.add(terms, at_least=1.0 - len(access))
