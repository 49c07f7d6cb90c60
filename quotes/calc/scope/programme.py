"""The cheapest scope that reaches a chance, or the safest for a budget: a mixed-integer programme.

Solved to its proven optimum by HiGHS through `scipy.optimize.milp`. Rows are the implications, the chance,
the rider-safety ceiling and the price of coming back; equal costs go to the least work. Rows and columns
stand in the order of the codes, so that the order of the catalogue changes nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from quotes.calc.scope.case import Case
from quotes.calc.scope.costs import Costs
from quotes.calc.scope.hazards import Hazards
from quotes.calc.scope.implications import Graph
from quotes.calc.scope.must import MustList
from quotes.calc.scope.programme_rows import Key, ScopeRows
from quotes.calc.scope.solved import options_for, solved
from quotes.calc.shop import LineKind

if TYPE_CHECKING:
    from scipy.sparse import csr_array

TIE_PER_HOUR = 1e-3
"""Added cost of an hour, so that of two plans at one price the one with less work is taken."""
TIE_PER_ARTICLE = 1e-5
ROUNDING = 1e-9
"""Slack on a hazard bound, so that a bound which a plan meets exactly is met."""
FINE = 1e6
"""Hazards are made least in millionths, so that the solver's gap is far under any that is shown."""

Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Chosen:
    """What a plan takes beyond the must list's own closure, and the ways in that it uses.

    `bought` are those of the new articles that come with no other. `proven` is false where the solver's time
    was up before it had shown that nothing is better.
    """

    new: frozenset[str]
    done: frozenset[str]
    work: frozenset[str]
    bought: frozenset[str]
    proven: bool = True


@dataclass(frozen=True, slots=True)
class Bound:
    """These hazards come to no more than so much, our own assembly faults counted or not."""

    hazards: Mapping[str, Hazards]
    at_most: float
    faults: bool = True


@dataclass(frozen=True, slots=True)
class Purse:
    """The price with tax, and a share of the net labour on top, come to no more than so much."""

    at_most: float
    on_labour: float = 0.0


Limits = Sequence[Bound | Purse]


class Programme:
    """The programme of one case; solved several times with other bounds."""

    def __init__(self, case: Case, graph: Graph, musts: MustList, costs: Costs) -> None:
        self.case = case
        self.graph = graph
        self.musts = musts
        self.costs = costs
        self.scope_rows = ScopeRows(case, graph, singly=costs.piece, coming_back=costs.coming_back)
        self.rows = self.scope_rows.rows

    def cheapest(self, limits: Limits) -> Chosen | None:
        """The cheapest plan within these limits; None where there is none."""
        return self._solve(self._cost, limits)

    def safest(self, of: Mapping[str, Hazards], limits: Limits = ()) -> Chosen | None:
        """The plan with the least sum of these hazards and our own faults, within these limits."""
        return self._solve(FINE * self._hazard(of, faults=True)[0], limits)

    def _price(self, key: Key) -> tuple[float, LineKind]:
        """Net price of a variable at one, and the kind of line that it makes."""
        kind, code = key
        if kind == "bought" or (kind == "new" and code not in self.graph.givers):
            return self.costs.article.get(code, 0.0), "part"
        if kind == "singly":
            return self.costs.piece[code], "part"
        if kind == self.scope_rows.charged(code):
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
    def _labour(self) -> Vector:
        """Net labour of every variable at one."""
        prices = (self._price(key) for key in self.rows.columns)
        return np.array([price if kind == "labour" else 0.0 for price, kind in prices])

    @cached_property
    def _cost(self) -> Vector:
        """What is made least: prices, faults of our own, coming back, and a breath for every tie."""
        cost = np.array([self._price(key)[0] for key in self.rows.columns])
        fault = float(self.case.shop.fault_cost) * self.case.shop.assembly_fault_chance
        for (kind, code), column in self.rows.columns.items():
            if kind == self.scope_rows.charged(code):
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
        for code, hazards in sorted(of.items()):
            constant += hazards.left
            new, done = (
                self.rows.column(self.scope_rows.new(code)),
                self.rows.column(self.scope_rows.done(code)),
            )
            if hazards.done is None or new == done:
                row[new] += hazards.new - hazards.left
            else:
                row[done] += hazards.done - hazards.left
                row[new] += hazards.new - hazards.done
        return (row + self._faults if faults else row), constant

    @cached_property
    def _faults(self) -> Vector:
        """Chance of a fault of our own in every variable at one."""
        row = np.zeros(len(self.rows.columns))
        for (kind, code), column in self.rows.columns.items():
            if kind == self.scope_rows.charged(code) and self.case.catalogue.operations[code].is_assembly:
                row[column] = self.case.shop.assembly_fault_chance
        return row

    def _limit(self, limit: Bound | Purse) -> tuple[Vector, float]:
        """The row of a limit, and the most that it may come to."""
        if isinstance(limit, Purse):
            return self._gross + limit.on_labour * self._labour, limit.at_most
        row, constant = self._hazard(limit.hazards, faults=limit.faults)
        return row, limit.at_most - constant + ROUNDING

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
        for node in self.musts.fixed:
            key = self.scope_rows.variable(node)
            if key in self.rows.columns and node[0] != "out":
                low[self.rows.columns[key]] = 1.0
        return low, high, whole

    def _solve(self, objective: Vector, limits: Limits) -> Chosen | None:
        from scipy.optimize import Bounds, LinearConstraint, milp  # slow to import: only where it is used

        count = len(self.rows.columns)
        low, high, whole = self._fixed
        if (low > high).any():
            return None
        rows = [self._limit(limit) for limit in limits]
        constraints = [LinearConstraint(self._matrix, self.rows.low, self.rows.high)] if self.rows.low else []
        constraints += [LinearConstraint(row.reshape(1, count), -np.inf, most) for row, most in rows]
        answer = solved(
            milp(
                objective,
                integrality=whole,
                bounds=Bounds(low, high),
                constraints=constraints,
                options=options_for(int(whole.sum())),
            )
        )
        if answer is None:
            return None
        taken = {key for key, column in self.rows.columns.items() if answer.values[column] > 0.5}
        new = frozenset(code for kind, code in taken if kind == "new")
        return Chosen(
            new=new,
            bought=frozenset(code for code in new if self.scope_rows.bought(code) in taken),
            done=frozenset(code for kind, code in taken if kind == "done"),
            work=frozenset(code for kind, code in taken if kind == "work"),
            proven=answer.proven,
        )

    @cached_property
    def _matrix(self) -> csr_array:
        from scipy.sparse import csr_array

        entries = np.array(self.rows.entries, dtype=np.float64).reshape(-1, 3)
        places = entries[:, :2].astype(np.int64)
        shape = len(self.rows.low), len(self.rows.columns)
        return csr_array((entries[:, 2], (places[:, 0], places[:, 1])), shape=shape)
