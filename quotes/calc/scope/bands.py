"""The bands of plans that differ in a few parts: only what changes is drawn again."""

from __future__ import annotations

import numpy as np

from quotes.calc.life.draws import DRAWN, Draws, Fitted, band, stopping_draws
from quotes.calc.scope.case import Case
from quotes.calc.scope.plan import Plan


class Bands:
    """The 80 % bands of one case over `use`, on the draws that its options are compared by."""

    def __init__(self, case: Case, use: float) -> None:
        self.case = case
        self.use = use
        self._fitted: dict[str, Fitted] = {}
        self._hazard: Draws = np.zeros(DRAWN)
        self._room: Draws = np.empty(DRAWN)

    def of(self, plan: Plan) -> tuple[float, float]:
        """The low and high chance of a plan."""
        for code, part in plan.fitted(self.case).items():
            before = self._fitted.get(code)
            if part != before:
                self._add(code, part, before)
                self._fitted[code] = part
        shop = self.case.shop
        faults = plan.faults * shop.assembly_fault_chance
        return band(np.exp(-(shop.shop_factor * self._hazard + faults)))

    def _add(self, code: str, part: Fitted, before: Fitted | None) -> None:
        self._hazard += stopping_draws(code, part, self.use, self._room)
        if before is not None:
            self._hazard -= stopping_draws(code, before, self.use, self._room)
