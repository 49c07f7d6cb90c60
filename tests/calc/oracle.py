"""The scope's problem once more, for OR-Tools CP-SAT, from the catalogue's own words and not our rows."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from ortools.sat.python import cp_model

from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.case import Case
from quotes.calc.scope.costs import Costs
from quotes.calc.scope.hazards import Hazards
from quotes.calc.scope.programme import Bound, Programme
from quotes.calc.shop import LINE_KINDS
from quotes.calc.work.bought import SUPPLIED_IN
from quotes.calc.work.work_set import INCLUDED_THERE

SCALE = 1_000_000
"""CP-SAT counts in whole numbers: hazards and prices are scaled by this before rounding."""


def plain_costs(case: Case) -> Costs:
    """Prices without the price of coming back and without faults, so that both solvers see one objective."""
    pricing = Pricing(case)
    return Costs(
        article={c: float(p) for c in case.catalogue.components if (p := pricing.article(c)) is not None},
        piece={c: float(p) for c in case.catalogue.components if (p := pricing.piece(c)) is not None},
        operation={o: float(pricing.operation(o)) for o in case.catalogue.operations},
        machine_work={m: float(pricing.machine_work_piece(m)) for m in case.catalogue.machine_work},
        coming_back={},
        tax_share=dict.fromkeys(LINE_KINDS, 0.0),
    )


class Oracle:
    """The same problem stated for CP-SAT from the catalogue's own words."""

    def __init__(self, case: Case, costs: Costs) -> None:
        self.case, self.costs = case, costs
        self.model = cp_model.CpModel()
        catalogue = case.catalogue
        self.new = {c: self.model.new_bool_var(f"new {c}") for c in catalogue.components}
        self.own = {c: self.model.new_bool_var(f"own {c}") for c in catalogue.components}
        self.done = {c: self.model.new_bool_var(f"done {c}") for c in catalogue.components}
        self.work = {o: self.model.new_bool_var(f"work {o}") for o in catalogue.operations}
        self.out = {m: self.model.new_int_var(0, w.quantity, m) for m, w in catalogue.machine_work.items()}
        self.single = {c: self.model.new_int_var(0, 99, f"singly {c}") for c in catalogue.components}
        for code in catalogue.components:
            self._component(code)
        for code, operation in catalogue.operations.items():
            for needed in (*operation.requires, *operation.undo):
                self.model.add_implication(self.work[code], self.work[needed])
            for use in operation.consumes:
                if use.rule == "always" and use.quantity is None and use.component in self.new:
                    self.model.add_implication(self.work[code], self.new[use.component])
        self._singles()

    def _component(self, code: str) -> None:
        model, component = self.model, self.case.catalogue.components[code]
        givers = self._givers(code)
        model.add_implication(self.own[code], self.new[code])
        model.add_bool_or([self.new[code].negated(), self.own[code], *(self.new[g] for g in givers)])
        if not givers:
            model.add(self.own[code] == self.new[code])
        model.add_implication(self.new[code], self.done[code])
        mendable = self.case.levels.get(code) and self.case.levels[code].reconditioned is not None
        if not mendable:
            model.add(self.done[code] == self.new[code])
        if code not in self.costs.article:
            model.add(self.own[code] == 0)
        for operation in (*component.access_operations, *component.with_operations):
            model.add_implication(self.own[code], self.work[operation])
        for companion in component.companions_on_renewal:
            if companion in self.new:
                model.add_implication(self.own[code], self.new[companion])
        for other in component.recondition_on_renewal:
            if other in self.done:
                model.add_implication(self.own[code], self.done[other])
        for given_code in self._gives(code):
            model.add_implication(self.own[code], self.new[given_code])
        for operation in component.access_operations:
            if mendable:
                model.add_implication(self.done[code], self.work[operation])
        self._ways_in(code)
        self._machine_work(code, mendable=bool(mendable))

    def _ways_in(self, code: str) -> None:
        ways = self.case.catalogue.components[code].access_any_of
        if not ways:
            return
        taken = [self.model.new_bool_var(f"way {code} {n}") for n in range(len(ways))]
        self.model.add_bool_or([self.own[code].negated(), *taken])
        for choice, way in zip(taken, ways, strict=True):
            for operation in way:
                self.model.add_implication(choice, self.work[operation])

    def _machine_work(self, code: str, *, mendable: bool) -> None:
        component, catalogue = self.case.catalogue.components[code], self.case.catalogue
        pieces = catalogue.engine_type.pieces.get(component.machine_work_piece or "")
        for work in component.machine_work:
            self._send(work, self.own[code], pieces)
        if mendable and component.recondition is not None:
            only = self.model.new_bool_var(f"only done {code}")
            self.model.add(only == self.done[code] - self.new[code])
            for work in component.recondition.machine_work:
                self._send(work, only, component.recondition.machine_work_quantity)

    def _send(self, work: str, when: Any, pieces: int | None) -> None:
        whole = self.case.catalogue.machine_work[work]
        if pieces is None:
            self.model.add(self.out[work] >= whole.quantity * when)
        else:
            self._added.setdefault(work, []).append(pieces * when)
        for operation in whole.needs_operations:
            self.model.add_implication(when, self.work[operation])

    @property
    def _added(self) -> dict[str, list[Any]]:
        if not hasattr(self, "_sums"):
            self._sums: dict[str, list[Any]] = {}
        return self._sums

    def _gives(self, code: str) -> list[str]:
        catalogue = self.case.catalogue
        supplied = [
            s.component
            for s in SUPPLIED_IN
            if s.article == code and s.only_block in ("", catalogue.engine_type.block)
        ]
        return [c for c in (*catalogue.components[code].comes_with, *supplied) if c in catalogue.components]

    def _givers(self, code: str) -> list[str]:
        return [g for g in self.case.catalogue.components if code in self._gives(g)]

    def _singles(self) -> None:
        for work, terms in self._added.items():
            self.model.add(self.out[work] >= sum(terms))
        for component in self.case.catalogue.components:
            taken = [
                (use.quantity, self.work[o])
                for o, operation in self.case.catalogue.operations.items()
                for use in operation.consumes
                if use.component == component and use.quantity is not None and use.rule == "always"
            ]
            if taken:
                whole = sum(quantity for quantity, _ in taken)
                self.model.add(
                    self.single[component] + whole * self.new[component] >= sum(q * w for q, w in taken)
                )
            else:
                self.model.add(self.single[component] == 0)

    @property
    def charged(self) -> dict[str, Any]:
        """Work that costs its hours: not what is part of a larger operation of the job."""
        found = dict(self.work)
        for one in INCLUDED_THERE:
            if {one.operation, one.larger} <= self.work.keys():
                alone = self.model.new_bool_var(f"alone {one.operation}")
                self.model.add(alone >= self.work[one.operation] - self.work[one.larger])
                found[one.operation] = alone
        return found

    def cheapest(self, programme: Programme, stop: Bound) -> float:
        """The least price that keeps the stopping hazard under a bound."""
        self._musts(programme)
        charged = self.charged
        hazard, constant = self._hazard(stop.hazards, charged)
        self.model.add(hazard <= math.floor((stop.at_most - constant) * SCALE))
        return self._least(self._price(charged))

    def safest(self, programme: Programme, hazards: Mapping[str, Hazards], at_most: float) -> float:
        """The least stopping hazard that can be had for a net price, our own faults counted."""
        self._musts(programme)
        charged = self.charged
        self.model.add(self._price(charged, fault_cost=0.0) <= math.floor(at_most * SCALE))
        hazard, constant = self._hazard(hazards, charged)
        return self._least(hazard) + constant

    def _musts(self, programme: Programme) -> None:
        for kind, code in programme.musts.fixed:
            if kind == "out":
                continue
            table = {"new": self.new, "done": self.done, "work": self.work}[kind]
            self.model.add(table[code] == 1)
        for work, pieces in programme.musts.pieces.items():
            self.model.add(self.out[work] >= pieces)

    def _least(self, sum_: Any) -> float:
        self.model.minimize(sum_)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 2
        assert solver.solve(self.model) == cp_model.OPTIMAL
        return solver.objective_value / SCALE

    def _price(self, charged: dict[str, Any], fault_cost: float | None = None) -> Any:
        costs, operations, shop = self.costs, self.case.catalogue.operations, self.case.shop
        each = float(shop.fault_cost) if fault_cost is None else fault_cost
        fault = each * shop.assembly_fault_chance
        return (
            sum(round(costs.article.get(c, 0) * SCALE) * v for c, v in self.own.items())
            + sum(round(costs.piece.get(c, 0) * SCALE) * v for c, v in self.single.items())
            + sum(
                round((costs.operation[o] + fault * operations[o].is_assembly) * SCALE) * v
                for o, v in charged.items()
            )
            + sum(round(costs.machine_work[m] * SCALE) * v for m, v in self.out.items())
        )

    def _hazard(self, of: Mapping[str, Hazards], charged: dict[str, Any]) -> tuple[Any, float]:
        terms, constant = [], 0.0
        for code, each in of.items():
            constant += each.left
            middle = each.left if each.done is None else each.done
            if each.done is not None:
                terms.append(round((each.done - each.left) * SCALE) * self.done[code])
            terms.append(round((each.new - middle) * SCALE) * self.new[code])
        fault, operations = self.case.shop.assembly_fault_chance, self.case.catalogue.operations
        terms += [round(fault * SCALE) * v for o, v in charged.items() if operations[o].is_assembly]
        return sum(terms), constant
