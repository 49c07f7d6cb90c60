"""What an answer of the solver is worth."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from quotes.calc.compare import compare
from quotes.calc.scope.solved import MANY_CHOICES, NoAnswerError, options_for, solved
from tests.calc.asked import tired_single
from tests.calc.small import SHOP
from tests.cast import shipped


def answer(**changes: Any) -> SimpleNamespace:
    """An optimum that the solver has proven, with one thing changed."""
    fields = {"status": 0, "x": np.ones(2), "fun": 40.0, "mip_dual_bound": 40.0, "message": "Optimal"}
    return SimpleNamespace(**{**fields, **changes})


def test_an_optimum_that_is_proven_counts_as_proven() -> None:
    found = solved(answer())
    assert found is not None
    assert found.proven


@pytest.mark.parametrize("less", [{"status": 1}, {"mip_dual_bound": 39.99}])
def test_a_plan_found_before_time_was_up_or_with_a_gap_is_not_proven(less: dict[str, Any]) -> None:
    found = solved(answer(**less))
    assert found is not None
    assert not found.proven


def test_where_nothing_keeps_the_bounds_there_is_no_plan() -> None:
    row = LinearConstraint(np.ones((1, 2)), 3.0, np.inf)
    assert solved(milp(np.ones(2), integrality=[1, 1], bounds=Bounds(0, 1), constraints=[row])) is None


@pytest.mark.parametrize("status", [1, 3, 4])
def test_no_plan_and_no_proof_that_there_is_none_is_an_error(status: int) -> None:
    with pytest.raises(NoAnswerError, match="the solver gave no plan: out of time"):
        solved(answer(status=status, x=None, message="out of time"))


def test_the_page_says_so_where_it_was_not_proven_that_no_plan_is_better(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def hurried(*positional: Any, **named: Any) -> SimpleNamespace:
        return SimpleNamespace(**{**milp(*positional, **named), "status": 1})

    monkeypatch.setattr("scipy.optimize.milp", hurried)
    option = compare(tired_single(tiers=("refresh",)), shipped("single450"), SHOP).option("refresh")
    assert any("proven that no plan is better" in note for note in option.notes)


def test_a_large_programme_is_told_how_to_look_in_words_that_the_solver_knows() -> None:
    """SciPy says that it hands them on; of a name that is none it would say so in another warning."""
    told = options_for(MANY_CHOICES + 1)
    assert told.keys() > options_for(MANY_CHOICES).keys()
    row = LinearConstraint(np.ones((1, 2)), 1.0, np.inf)
    with pytest.warns(RuntimeWarning, match="passed to HiGHS verbatim"):
        found = solved(
            milp([3.0, 2.0], integrality=[1, 1], bounds=Bounds(0, 1), constraints=[row], options=told)
        )
    assert found is not None
    assert found.proven
    assert list(found.values) == [0.0, 1.0]
