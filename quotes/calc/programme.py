"""The cheapest scope that reaches a chance, or the safest for a budget: a mixed-integer programme.

Solved to its proven optimum by HiGHS through `scipy.optimize.milp`. Rows are the implications, the chance,
the rider-safety ceiling and the price of coming back; equal costs go to the least work.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from quotes.calc.case import Case
from quotes.calc.implications import Graph, Node
from quotes.calc.must import MustList
from quotes.calc.shop import LineKind

TIE_PER_HOUR = 1e-3
"""Added cost of an hour, so that of two plans at one price the one with less work is taken."""
TIE_PER_ARTICLE = 1e-5
ROUNDING = 1e-9
"""Slack on a hazard bound, so that a bound which a plan meets exactly is met."""
TIME_LIMIT_S = 10.0

Key = tuple[str, str]
Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Costs:
    """What the programme weighs, before tax, in units of the currency."""

    article: Mapping[str, float]
    """Price of a full renewal's parts, by component; absent where nothing can be bought."""
    piece: Mapping[str, float]
    """Price of one part, for components bought singly on the way."""
    operation: Mapping[str, float]
    machine_work: Mapping[str, float]
    """Price of one piece sent out."""
    coming_back: Mapping[str, float]
    """Expected price of reaching a component again, where it is left within reach."""
    tax_share: Mapping[LineKind, float]
    """Tax by line kind, as a share of the net sum: a budget is with tax."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What a plan takes beyond the must list's own closure, and the ways in that it uses."""

    new: frozenset[str]
    done: frozenset[str]
    work: frozenset[str]


@dataclass(frozen=True, slots=True)
class Hazards:
    """Stopping hazard of one component over the span looked at, left, reconditioned and new."""

    left: float
    done: float | None
    new: float


@dataclass
class _Rows:
    """Linear rows in the making: coefficients by variable, and bounds."""

    columns: dict[Key, int] = field(default_factory=dict)
    entries: list[tuple[int, int, float]] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)

    def column(self, key: Key) -> int:
        return self.columns.setdefault(key, len(self.columns))

    def add(
        self, terms: Sequence[tuple[Key, float]], *, at_least: float = -np.inf, at_most: float = np.inf
    ) -> None:
        row = len(self.low)
        self.entries += [(row, self.column(key), value) for key, value in terms]
        self.low.append(at_least)
        self.high.append(at_most)

    def implies(self, cause: Key, effect: Key) -> None:
        if cause != effect:
            self.add([(effect, 1.0), (cause, -1.0)], at_least=0.0)


class Programme:
    """The programme of one case; solved several times with other bounds."""

    def __init__(
        self,
        case: Case,
        graph: Graph,
        musts: MustList,
        costs: Costs,
        stop: Mapping[str, Hazards],
        rider: Mapping[str, Hazards],
    ) -> None:
        self.case = case
        self.graph = graph
        self.musts = musts
        self.costs = costs
        self.stop = stop
        self.rider = rider
        self.rows = _Rows()
        self._mendable = graph.mendable
        self._name_columns()
        self._implications()
        self._ways_in()
        self._machine_work()
        self._bought_singly()
        self._coming_back()

    def cheapest(self, *, stop_at_most: float | None, rider_at_most: float | None) -> Chosen | None:
        """The cheapest plan whose hazards keep under both bounds; None where there is none."""
        bounds = self._hazard_rows(stop_at_most, rider_at_most)
        return self._solve(self._cost, bounds)

    def safest(self, *, rider_at_most: float | None, gross_at_most: float | None) -> Chosen | None:
        """The plan with the least stopping hazard, within a price with tax where one is given."""
        bounds = self._hazard_rows(None, rider_at_most)
        if gross_at_most is not None:
            bounds.append((self._gross, gross_at_most))
        weight = 1e-9 / max(1.0, float(np.abs(self._cost).max()))
        return self._solve(self._stop + weight * self._cost, bounds)

    # Rows that every solution obeys.

    def _new(self, code: str) -> Key:
        return ("new", code)

    def _bought(self, code: str) -> Key:
        """Bought on its own; the same as new unless another article may bring it."""
        return ("bought", code) if code in self.graph.givers else ("new", code)

    def _done(self, code: str) -> Key:
        return ("done", code) if code in self._mendable else ("new", code)

    def _variable(self, node: Node) -> Key:
        kind, code = node
        if kind == "new":
            return self._new(code)
        if kind == "done":
            return self._done(code)
        return (kind, code)

    def _name_columns(self) -> None:
        for code in self.case.catalogue.components:
            for key in (self._new(code), self._bought(code), self._done(code)):
                self.rows.column(key)
        for code in self.case.catalogue.operations:
            self.rows.column(("work", code))
        for code in self.case.catalogue.machine_work:
            self.rows.column(("out", code))

    def _implications(self) -> None:
        for node, targets in self.graph.edges.items():
            kind, code = node
            if kind == "out":
                continue
            for target in targets:
                if target[0] == "out":
                    continue
                brought = kind == "new" and target != ("done", code)
                cause = self._bought(code) if brought else self._variable(node)
                self.rows.implies(cause, self._variable(target))
        for code, givers in self.graph.givers.items():
            terms: list[tuple[Key, float]] = [(self._bought(code), 1.0), (self._new(code), -1.0)]
            terms += [(self._new(giver), 1.0) for giver in givers]
            self.rows.add(terms, at_least=0.0)
            self.rows.implies(self._bought(code), self._new(code))

    def _ways_in(self) -> None:
        for code, ways in self.graph.ways_in.items():
            choices: list[Key] = [("way", f"{code}:{number}") for number in range(len(ways))]
            for choice, way in zip(choices, ways, strict=True):
                for operation in way:
                    self.rows.implies(choice, ("work", operation))
            self.rows.add([*((choice, 1.0) for choice in choices), (self._bought(code), -1.0)], at_least=0.0)

    def _machine_work(self) -> None:
        catalogue = self.case.catalogue
        shared: dict[str, list[tuple[Key, float]]] = {}
        for code, component in catalogue.components.items():
            for work in component.machine_work:
                if work in catalogue.machine_work:
                    cause = [(self._bought(code), 1.0)]
                    self._sends(work, cause, self._pieces(component.machine_work_piece), shared)
            if code in self._mendable and component.recondition is not None:
                for work in component.recondition.machine_work:
                    cause = [(self._done(code), 1.0), (self._new(code), -1.0)]
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

    def _bought_singly(self) -> None:
        """Parts that single operations take a few of, unless the whole set is new anyway."""
        takes: dict[str, list[tuple[Key, float]]] = {}
        for code, operation in self.case.catalogue.operations.items():
            for use in operation.consumes:
                if use.quantity is not None and use.rule == "always" and use.component in self.costs.piece:
                    takes.setdefault(use.component, []).append((("work", code), float(use.quantity)))
        for component, terms in takes.items():
            whole = sum(value for _, value in terms)
            self.rows.add(
                [(("singly", component), 1.0), (self._new(component), whole), *((k, -v) for k, v in terms)],
                at_least=0.0,
            )

    def _coming_back(self) -> None:
        for code in self.costs.coming_back:
            access = self.case.catalogue.components[code].access_operations
            terms: list[tuple[Key, float]] = [(("back", code), 1.0), (self._done(code), 1.0)]
            terms += [(("work", operation), -1.0) for operation in access]
            self.rows.add(terms, at_least=1.0 - len(access))

    # What is weighed.

    def _price(self, key: Key) -> tuple[float, LineKind]:
        """Net price of a variable at one, and the kind of line that it makes."""
        kind, code = key
        if kind == "bought" or (kind == "new" and code not in self.graph.givers):
            return self.costs.article.get(code, 0.0), "part"
        if kind == "singly":
            return self.costs.piece[code], "part"
        if kind == "work":
            return self.costs.operation[code], "labour"
        if kind == "out":
            return self.costs.machine_work[code], "machine_work"
        return 0.0, "part"

    @cached_property
    def _gross(self) -> Vector:
        """Price with tax of every variable at one."""
        prices = (self._price(key) for key in self.rows.columns)
        return np.array([price * (1.0 + self.costs.tax_share[kind]) for price, kind in prices])

    @cached_property
    def _cost(self) -> Vector:
        """What is made least: prices, faults of our own, coming back, and a breath for every tie."""
        cost = np.array([self._price(key)[0] for key in self.rows.columns])
        fault = float(self.case.shop.fault_cost) * self.case.shop.assembly_fault_chance
        for (kind, code), column in self.rows.columns.items():
            if kind == "work":
                operation = self.case.catalogue.operations[code]
                cost[column] += TIE_PER_HOUR * float(operation.hours)
                cost[column] += fault if operation.is_assembly else 0.0
            elif kind == "back":
                cost[column] += self.costs.coming_back[code]
            elif kind in {"new", "bought", "done"}:
                cost[column] += TIE_PER_ARTICLE
        return cost

    def _hazard(self, of: Mapping[str, Hazards], *, faults: bool) -> tuple[Vector, float]:
        """Coefficients and constant of a cumulative hazard, with our own assembly faults or without."""
        row = np.zeros(len(self.rows.columns))
        constant = 0.0
        for code, hazards in of.items():
            constant += hazards.left
            new, done = self.rows.column(self._new(code)), self.rows.column(self._done(code))
            if hazards.done is None or new == done:
                row[new] += hazards.new - hazards.left
            else:
                row[done] += hazards.done - hazards.left
                row[new] += hazards.new - hazards.done
        if faults:
            for (kind, code), column in self.rows.columns.items():
                if kind == "work" and self.case.catalogue.operations[code].is_assembly:
                    row[column] += self.case.shop.assembly_fault_chance
        return row, constant

    @cached_property
    def _stop(self) -> Vector:
        return self._hazard(self.stop, faults=True)[0]

    def _hazard_rows(
        self, stop_at_most: float | None, rider_at_most: float | None
    ) -> list[tuple[Vector, float]]:
        rows: list[tuple[Vector, float]] = []
        for bound, of, faults in ((stop_at_most, self.stop, True), (rider_at_most, self.rider, False)):
            if bound is not None:
                row, constant = self._hazard(of, faults=faults)
                rows.append((row, bound - constant + ROUNDING))
        return rows

    # Solving.

    @cached_property
    def _fixed(self) -> tuple[Vector, Vector, NDArray[np.int64]]:
        """Lower bounds, upper bounds and integrality of every variable."""
        count = len(self.rows.columns)
        low, high, whole = np.zeros(count), np.ones(count), np.zeros(count, dtype=np.int64)
        for (kind, code), column in self.rows.columns.items():
            if kind in {"new", "done", "bought", "way"}:
                whole[column] = 1
            if kind == "out":
                work = self.case.catalogue.machine_work[code]
                low[column] = self.musts.pieces.get(code, 0)
                high[column] = work.quantity
            elif kind in {"singly", "back"}:
                high[column] = np.inf
            elif kind in {"new", "done"} and code in self.case.leave:
                high[column] = 0.0
            if kind == "bought" or (kind == "new" and code not in self.graph.givers):
                high[column] = high[column] if code in self.costs.article else 0.0
        for node in self.musts.parents:
            key = self._variable(node)
            if key in self.rows.columns and node[0] != "out":
                low[self.rows.columns[key]] = 1.0
        return low, high, whole

    def _solve(self, objective: Vector, bounds: Sequence[tuple[Vector, float]]) -> Chosen | None:
        count = len(self.rows.columns)
        low, high, whole = self._fixed
        if (low > high).any():
            return None
        constraints = [LinearConstraint(self._matrix, self.rows.low, self.rows.high)]
        constraints += [LinearConstraint(row.reshape(1, count), -np.inf, most) for row, most in bounds]
        answer = milp(
            objective,
            integrality=whole,
            bounds=Bounds(low, high),
            constraints=constraints,
            options={"mip_rel_gap": 0.0, "time_limit": TIME_LIMIT_S},
        )
        if answer.x is None:
            return None
        taken = {key for key, column in self.rows.columns.items() if answer.x[column] > 0.5}
        return Chosen(
            new=frozenset(code for kind, code in taken if kind == "new"),
            done=frozenset(code for kind, code in taken if kind == "done"),
            work=frozenset(code for kind, code in taken if kind == "work"),
        )

    @cached_property
    def _matrix(self) -> csr_array:
        rows, columns, values = zip(*self.rows.entries, strict=True)
        return csr_array((values, (rows, columns)), shape=(len(self.rows.low), len(self.rows.columns)))
