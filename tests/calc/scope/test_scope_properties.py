"""What holds for the scope of any engine: of any type, age and use that the shipped catalogue knows."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import pairwise
from random import Random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request
from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.case import make_case
from quotes.calc.scope.decide import Scope, decide
from quotes.calc.scope.graph_of import graph_of
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.implications import Node, close
from quotes.calc.scope.ladder import ladder
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.rules.base import Must
from tests.calc.asked import asked, ran, tired_four
from tests.calc.small import SHOP
from tests.cast import shipped

Price = Callable[[list[str]], float]
TYPES = ("single450", "twin650", "four600", "four1000")
SAVES = {"twin650": {"cylinder_head"}, "four600": {"cylinder_head"}, "four1000": {"cylinder_head"}}
"""What can cost less than what it takes the place of: a bare head, for all its seats and guides."""


@st.composite
def requests(draw: st.DrawFn) -> Request:
    """An engine that came in used, or that nothing is known of, for a season of its own length."""
    engine_type = draw(st.sampled_from(TYPES))
    duty = draw(st.sampled_from(("sprint", "track_day", "endurance")))
    known = draw(st.booleans())
    past = [ran(draw(st.integers(100, 9_000)), duty=duty)] if known else []
    asked_for: dict[str, Any] = draw(
        st.sampled_from([{}, {"target": "0.90"}, {"target": "0.97"}, {"budget": "4000"}])
    )
    engine = {} if known else {"history": None}
    return asked(engine_type, *past, amount=None, unit=None, duty=duty, engine=engine, **asked_for)


def scope_of(request: Request, tier: str, catalogue: EngineCatalogue | None = None) -> Scope:
    return decide(grounds_of(make_case(request, catalogue or shipped(request.engine.type), SHOP, tier)))


@settings(max_examples=12, deadline=None)
@given(requests(), st.sampled_from(("refresh", "mild", "full")))
def test_every_scope_is_proven_holds_all_its_musts_and_has_a_ladder_that_climbs(
    request: Request, tier: str
) -> None:
    scope = scope_of(request, tier)
    steps = ladder(scope)
    assert scope.proven
    assert {node for node in scope.musts.fixed if node[0] != "out"} <= scope.plan.parents.keys()
    assert {code for kind, code in scope.musts.fixed if kind == "new"} <= set(steps[0].adds)
    assert len(steps) <= 12
    for lower, higher in pairwise(steps):
        assert higher.gross > lower.gross
        assert higher.chance >= lower.chance + 0.005 - 1e-9


def shuffled(catalogue: EngineCatalogue, chance: Random) -> EngineCatalogue:
    """The same catalogue, its components, operations, parts and machine work in another order."""
    return replace(
        catalogue,
        components=mixed(catalogue.components, chance),
        operations=mixed(catalogue.operations, chance),
        machine_work=mixed(catalogue.machine_work, chance),
        parts=mixed(catalogue.parts, chance),
    )


def mixed(entries: Mapping[Any, Any], chance: Random) -> dict[Any, Any]:
    keys = list(entries)
    chance.shuffle(keys)
    return {key: entries[key] for key in keys}


@settings(max_examples=6, deadline=None)
@given(requests(), st.randoms(use_true_random=False))
def test_the_order_of_the_catalogue_changes_nothing(request: Request, chance: Random) -> None:
    ours = scope_of(request, "refresh")
    theirs = scope_of(request, "refresh", shuffled(shipped(request.engine.type), chance))
    assert theirs.plan.parents.keys() == ours.plan.parents.keys()
    assert [(s.gross, set(s.adds)) for s in ladder(theirs)] == [(s.gross, set(s.adds)) for s in ladder(ours)]


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(TYPES), st.data())
def test_renewing_more_never_costs_less_save_where_a_head_replaces_its_seats_and_guides(
    engine_type: str, data: st.DataObject
) -> None:
    price, codes = _pricing(engine_type)
    some = data.draw(st.lists(st.sampled_from(codes), min_size=1, max_size=8, unique=True))
    more = data.draw(st.sampled_from(codes))
    if price([*some, more]) < price(some) - 0.005:
        assert more in SAVES.get(engine_type, set())


def test_the_articles_that_can_cost_less_than_what_they_replace_are_these() -> None:
    """Every article that brings others, against all that it brings renewed one by one."""
    found: dict[str, set[str]] = {}
    for engine_type in TYPES:
        price, codes = _pricing(engine_type)
        graph = graph_of(make_case(tired(engine_type), shipped(engine_type), SHOP, "refresh"))
        for giver in codes:
            given_ = [code for code in codes if giver in graph.givers.get(code, ())]
            if given_ and price([*given_, giver]) < price(given_):
                found.setdefault(engine_type, set()).add(giver)
    assert found == SAVES


def tired(engine_type: str) -> Request:
    return asked(engine_type, ran(3_000, duty="track_day"), amount=1_000, duty="track_day")


def _pricing(engine_type: str) -> tuple[Price, list[str]]:
    """The price of renewing some components by themselves, before consumables, and all that can be bought."""
    case = make_case(tired(engine_type), shipped(engine_type), SHOP, "refresh")
    graph, pricing = graph_of(case), Pricing(case)

    def price(codes: list[str]) -> float:
        seeds: dict[Node, Must] = {("new", c): Must(("new", c), "asked", "") for c in codes}
        return pricing.quick_gross(Plan(case.catalogue, graph, seeds, close(graph, seeds), {}))

    return price, [code for code in case.catalogue.components if case.part(code) is not None]


def test_the_same_request_gives_the_same_scope() -> None:
    once, again = scope_of(tired_four(), "mild"), scope_of(tired_four(), "mild")
    assert once.plan.parents == again.plan.parents
    assert ladder(once) == ladder(again)
