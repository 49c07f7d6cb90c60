"""Why each component is dealt with as it is, and what those that stay may do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.implications import Node, chain
from quotes.calc.scope.must import Why, name_of, why
from quotes.calc.sheet.line_values import Reason, RenewalCost, Risk, State
from quotes.calc.sheet.measures import Measures, in_planned_unit, planned_unit
from quotes.calc.sheet.words import estimate_in_words, risk_in_words, used_in_words

DUE = 1.0
"""Share of its life used by which a part that stays is offered."""


def state_of(scope: Scope, node: Node) -> State:
    """The word for a node of the plan: must, or worth it."""
    if node in scope.must_nodes:
        return "must"
    root = chain(scope.plan.parents, node)[0]
    seed = scope.plan.seeds.get(root)
    return "must" if seed is not None and seed.code == "rider_safety" else "worth it"


def reason_of(scope: Scope, node: Node) -> Reason:
    """Why a component is on the list."""
    found = why(scope.case, scope.plan.seeds, scope.plan.parents, node)
    component = scope.case.catalogue.components[node[1]]
    return Reason(
        component=component.code,
        name=component.name,
        code=found.code,
        sentence=found.sentence,
        state=state_of(scope, node),
        chain=found.chain,
        rider_safety=component.locks_wheel_or_oils_tyre,
    )


def renewed(scope: Scope) -> dict[str, Reason]:
    """Every component that is new afterwards, in the order of the catalogue."""
    return {c: reason_of(scope, ("new", c)) for c in scope.case.catalogue.components if c in scope.plan.new}


def reconditioned(scope: Scope) -> dict[str, Reason]:
    """Every component brought back by machine work."""
    plan = scope.plan
    return {
        c: reason_of(scope, ("done", c)) for c in scope.case.catalogue.components if c in plan.reconditioned
    }


@dataclass(frozen=True, slots=True)
class Remaining:
    """Components that stay: those worth offering, and those left."""

    offered: dict[str, Risk]
    left: dict[str, Risk]


def remaining(scope: Scope, measures: Measures, stops: Mapping[str, float]) -> Remaining:
    """What stays as it is, the riskiest first; past or next at the end of its life it is offered."""
    case = scope.case
    staying = [
        code
        for code in case.levels
        if code not in scope.plan.new
        and code not in scope.plan.reconditioned
        and case.catalogue.components[code].judged_by != "disturbed"
    ]
    staying.sort(key=lambda code: (-stops[code], code))
    next_due = min(staying, key=lambda code: measures.wears[code].use_left(), default=None)
    offered: dict[str, Risk] = {}
    left: dict[str, Risk] = {}
    for code in staying:
        risk = _risk(scope, measures, code, stops[code])
        wanted = risk.used_pct_at_end >= 100.0 * DUE or code == next_due
        sellable = code in scope.brings and code not in case.leave
        if wanted and sellable:
            offered[code] = risk.model_copy(update={"takes": _taken(scope, code)})
        else:
            left[code] = risk
    return Remaining(offered, left)


def _risk(scope: Scope, measures: Measures, code: str, stops: float) -> Risk:
    case = scope.case
    component = case.catalogue.components[code]
    wear = measures.wears[code]
    before, after = wear.age / wear.life, (wear.age + wear.rate * case.use) / wear.life
    return Risk(
        component=code,
        name=component.name,
        used_pct=100.0 * before,
        used_pct_at_end=100.0 * after,
        stops_in_100=stops,
        rider_safety=component.locks_wheel_or_oils_tyre,
        sentence=_risk_sentence(scope, measures, code, after, stops),
        cost_to_renew=_price(scope, code),
        refused_by=case.refused.get(code, "") if code in case.leave else "",
    )


def _risk_sentence(scope: Scope, measures: Measures, code: str, after: float, stops: float) -> str:
    case = scope.case
    left = measures.wears[code].use_left()
    if left <= 0.0:
        life = say("Past its planned life already.")
    elif after >= 1.0:
        due = estimate_in_words(in_planned_unit(case, left), planned_unit(case))
        life = say("Due at {amount}.", amount=due)
    else:
        life = say("{percent} of its planned life used at the end.", percent=used_in_words(after))
    said = [say("Stops {risk}.", risk=risk_in_words(stops)), life]
    if not case.used[code].known:
        said.append(say("Its age is not known: counted half used until it is measured."))
    return " ".join(said)


def _price(scope: Scope, code: str) -> Decimal:
    """Net price of taking it in, with all that it brings; 0 where it can't be bought."""
    if code not in scope.brings:
        return Decimal(0)
    price = scope.price_of_adding(scope.brings[code])
    return round_half_up(Decimal(str(price)), scope.case.shop.decimals)


def _taken(scope: Scope, code: str) -> RenewalCost:
    """What taking it in costs the shop, with all that it brings."""
    return scope.pricing.taken_by([node for node in scope.brings[code] if node not in scope.plan.parents])


def why_sent_out(scope: Scope, work: str) -> tuple[State, str, str]:
    """State, reason code and sentence of a machine work."""
    node: Node = ("out", work)
    if node in scope.plan.parents:
        found: Why = why(scope.case, scope.plan.seeds, scope.plan.parents, node)
        return state_of(scope, node), found.code, found.sentence
    served = [
        c
        for c in scope.case.catalogue.components
        if c in scope.plan.reconditioned and _is_for(scope, c, work)
    ]
    names = ", ".join(name_of(scope.case, ("done", c)) for c in served)
    states = {state_of(scope, ("done", c)) for c in served}
    return (
        "must" if "must" in states else "worth it",
        "recondition",
        say("Brings back: {names}.", names=names),
    )


def _is_for(scope: Scope, component: str, work: str) -> bool:
    recondition = scope.case.catalogue.components[component].recondition
    return recondition is not None and work in recondition.machine_work
