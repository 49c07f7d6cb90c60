"""The cheapest plan for a chance, by the chance that is shown: the mean over seasons, not a line."""

from __future__ import annotations

import pytest

from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.programme import Programme
from quotes.calc.scope.reach import reaching, understated
from quotes.calc.scope.search import Search
from tests.calc.asked import tired_four
from tests.calc.oracle import plain_costs
from tests.calc.scope.rules.demands import case_of
from tests.calc.scope.test_budget import every_plan, only_a_few, spent
from tests.calc.scope.test_programme import plain_price


@pytest.mark.parametrize("target", [0.8968, 0.9008])
def test_no_plan_that_reaches_the_chance_shown_is_cheaper(target: float) -> None:
    """Every subset of five parts; without the price of coming back, so that both weigh the same."""
    search = Search(grounds_of(case_of(tired_four(**only_a_few()))))
    costs = plain_costs(search.case)
    search.programme = Programme(search.case, search.graph, search.musts, costs)
    found = reaching(search, target)
    assert found is not None
    assert search.strata.chance(found.plan) >= target
    plans = [plan for plan in every_plan(spent(1, **only_a_few())) if search.keeps_ceiling(plan)]
    reach_it = [plan for plan in plans if search.strata.chance(plan) >= target]
    assert 0 < len(reach_it) < len(plans)
    cheapest = min(plain_price(search.case, costs, plan) for plan in reach_it)
    assert plain_price(search.case, costs, found.plan) == pytest.approx(cheapest, abs=0.01)


def test_a_tangent_never_promises_more_than_the_mean_over_seasons() -> None:
    """So a plan that keeps its bound keeps it in truth."""
    search = Search(grounds_of(case_of(tired_four())))
    plans = list(every_plan(spent(1)))[::7]
    tangent = search.strata.tangent(search.strata.of(plans[0]))
    assert understated(search, tangent, plans[0]) == pytest.approx(0.0, abs=1e-12)
    assert all(understated(search, tangent, plan) >= -1e-12 for plan in plans)
    assert max(understated(search, tangent, plan) for plan in plans) > 1e-9
