"""What the solver's answer is worth: an optimum only where it says that it has proven one."""

from __future__ import annotations

import warnings
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

GAP = 0.0
"""The relative gap that is asked for."""
ABSOLUTE_GAP = 1e-6
"""HiGHS stops at this too: in money a tenth of what one article weighs in a tie."""
TIME_LIMIT_S = 10.0
ASKED: Mapping[str, float] = {
    "mip_rel_gap": GAP,
    "time_limit": TIME_LIMIT_S,
    "mip_heuristic_run_feasibility_jump": False,
}
"""What HiGHS is told. A first plan is found as soon without jumping to one, which took half its time."""
MANY_CHOICES = 150
"""A programme with more whole variables than this is a large one."""
LOOK_ONCE: Mapping[str, bool] = {
    "mip_heuristic_run_rins": False,
    "mip_heuristic_run_root_reduced_cost": False,
}
"""In a large one, one way of looking near the relaxed plan is enough: two take longer than the search."""
OPTIMAL, LIMIT, INFEASIBLE = 0, 1, 2
"""States of `scipy.optimize.milp`; unbounded ours can't be, since nothing has a price below nothing."""


# SciPy hands these on to HiGHS as they are, and says so each time.
warnings.filterwarnings("ignore", "Unrecognized options detected", RuntimeWarning)


class NoAnswerError(RuntimeError):
    """The solver stopped without a plan and without proof that there is none."""


def options_for(choices: int) -> Any:  # the stubs know no option but SciPy's own
    """What HiGHS is told for a programme of so many whole variables."""
    return {**ASKED, **LOOK_ONCE} if choices > MANY_CHOICES else dict(ASKED)


@dataclass(frozen=True, slots=True)
class Solved:
    """The values of the variables, and whether nothing better exists."""

    values: NDArray[np.float64]
    proven: bool


def solved(answer: Any) -> Solved | None:
    """The answer of `milp`; None where it is proven that no plan keeps the bounds. Raises NoAnswerError."""
    if answer.status == INFEASIBLE:
        return None
    if answer.x is None or answer.status not in {OPTIMAL, LIMIT}:
        raise NoAnswerError(f"the solver gave no plan: {answer.message}")
    bound = answer.fun if answer.mip_dual_bound is None else answer.mip_dual_bound
    proven = answer.status == OPTIMAL and abs(answer.fun - bound) <= ABSOLUTE_GAP + 1e-9 * abs(answer.fun)
    return Solved(answer.x, proven)
