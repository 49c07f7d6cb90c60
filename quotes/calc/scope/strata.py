"""Hazards season by season: the chance of any plan, and the tangent of it that the programme is given.

The chance shown is the mean over seasons of exp(-hazard). Minus its logarithm is concave in the hazards, so a
tangent lies above it: a plan that keeps a bound by the tangent keeps it in truth.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from quotes.calc.life.draws import Draws, duty_factors
from quotes.calc.life.wear import Wear
from quotes.calc.scope.case import DONE, LEFT, NEW, Case
from quotes.calc.scope.hazards import Hazards
from quotes.calc.scope.plan import Plan


@dataclass(frozen=True, slots=True)
class Tangent:
    """-log(chance) is at most `constant` and the sum of these hazards and the assembly faults."""

    hazards: Mapping[str, Hazards]
    constant: float

    def bound(self, target: float) -> float:
        """What hazards and faults may come to, for the chance to be the target or more."""
        return -math.log(target) - self.constant


class Strata:
    """The hazards of one case over `use`, in each season, for every component on its three levels."""

    def __init__(self, case: Case, use: float) -> None:
        self.case = case
        self.use = use
        self.row = {code: number for number, code in enumerate(sorted(case.levels))}

    @cached_property
    def hazards(self) -> Draws:
        """Shape (components, 3, seasons); where a component can't be reconditioned, as left."""
        levels = [self.case.levels[code] for code in self.row]
        mended = [row for row, each in enumerate(levels) if each.reconditioned is not None]
        factor = self.case.shop.shop_factor
        left = _hazards([each.left for each in levels], self.use, factor)
        done = left.copy()
        if mended:
            back = [each.reconditioned for each in levels if each.reconditioned is not None]
            done[mended] = _hazards(back, self.use, factor)
        new = _hazards([each.new for each in levels], self.use, factor)
        return np.stack([left, done, new], axis=1)

    def of(self, plan: Plan) -> Draws:
        """Shape (seasons,): the hazard after a plan, faults of our own counted."""
        levels = [plan.level(code) for code in self.row]
        parts = self.hazards[np.arange(len(levels)), levels].sum(axis=0)
        return np.asarray(parts + plan.faults * self.case.shop.assembly_fault_chance)

    def chance(self, plan: Plan) -> float:
        """The mean chance of a plan, as it is shown."""
        return float(np.exp(-self.of(plan)).mean())

    def tangent(self, at: Draws) -> Tangent:
        """The tangent where the seasons' hazards are `at`: each weighs by the chance to see it out."""
        finished = np.exp(-at)
        weights = finished / finished.sum()
        weighed = self.hazards @ weights
        found = {
            code: Hazards(
                left=float(weighed[row, LEFT]),
                done=float(weighed[row, DONE]) if self.case.levels[code].reconditioned is not None else None,
                new=float(weighed[row, NEW]),
            )
            for code, row in self.row.items()
        }
        return Tangent(found, constant=-math.log(finished.mean()) - float(weights @ at))


def _hazards(wears: list[Wear], use: float, shop_factor: float) -> Draws:
    """Shape (wears, seasons): `a0 ln(1 + f s D / b)`, the gammas integrated by hand."""

    def column(of: str) -> Draws:
        return np.array([[getattr(wear, of)] for wear in wears])

    age, shape = column("age"), column("shape")
    damage = (age + column("rate") * use * duty_factors()) ** shape - age**shape
    weight = shop_factor * column("stopping") / column("prior_scale")
    return np.asarray(column("evidence") * np.log1p(weight * damage))
