"""The first column of every comparison: the engine left as it is, with oil and filter at most."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from catalogue.calc.said import say, to_say
from quotes.calc.life.draws import Draws, Fitted
from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.case import Case
from quotes.calc.scope.graph_of import graph_of
from quotes.calc.scope.implications import Node, close
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.rules.base import Must
from quotes.calc.sheet.chance_values import Due
from quotes.calc.sheet.life_bars import life_bars
from quotes.calc.sheet.lock_words import too_risky
from quotes.calc.sheet.loss import expected_loss
from quotes.calc.sheet.measures import (
    Measures,
    chance_of,
    dues,
    measure,
    service,
    stops_in_100,
    wheel_lock_of,
    where_the_chance_goes,
)
from quotes.calc.sheet.tune_figures import power_left
from quotes.calc.sheet.values import LeaveIt

NAME = to_say("Leave it")
OIL_AND_FILTER: Node = ("work", "drain_fluids")


def leave_it(case: Case) -> tuple[LeaveIt, Draws]:
    """The engine run on in its own tune; `case` is that of a tier which adds nothing to it."""
    measures, plan = run_on(case), oil_and_filter(case)
    sums = Pricing(without_hand(case)).totals(plan)
    bound = measures.good_for()
    wheel_lock = wheel_lock_of(measures)
    hours = sum((case.catalogue.operations[o].hours for o in plan.operations), Decimal(0))
    target = float(case.request.target) if case.request.target is not None else None
    chance = chance_of(measures, target, met=_met(measures, target))
    column = LeaveIt(
        name=say(NAME),
        tune=case.tune.code,
        net=sums.net.typical,
        tax=sums.tax.typical,
        gross=sums.gross.typical,
        hours=hours,
        chance=chance,
        wheel_lock=wheel_lock,
        falls_due=_falls_due(case, measures),
        good_for=service(case, bound.use),
        good_for_reason=bound.reason,
        attention=_attention(case, measures),
        where_the_chance_goes=where_the_chance_goes(measures, {}, stops_in_100(measures)),
        notes=(say("The price is for oil and filter, the work with it."),),
        lives=life_bars(measures, {}, case.use),
        power=power_left(case),
        expected_loss=expected_loss(case, sums.gross.typical, measures.chance),
    )
    return column, measures.draws


def run_on(case: Case) -> Measures:
    """The figures of the engine as it came, nothing renewed and no work of ours in it."""
    fitted = {code: Fitted(wear, "kept") for code, wear in case.left_wears.items()}
    return measure(case, fitted, faults=0)


def without_hand(case: Case) -> Case:
    """The case priced for leaving it: lines and discounts set by hand belong to an option."""
    if not case.request.edits:
        return case
    return replace(case, request=case.request.model_copy(update={"edits": {}}))


def _met(measures: Measures, target: float | None) -> bool:
    return target is None or measures.chance >= target


def oil_and_filter(case: Case) -> Plan:
    """The one job of an engine that is left."""
    graph = graph_of(case)
    if OIL_AND_FILTER[1] not in case.catalogue.operations:
        return Plan(case.catalogue, graph, {}, {}, {})
    seeds = {OIL_AND_FILTER: Must(OIL_AND_FILTER, "every_job", say("Oil and filter."))}
    return Plan(case.catalogue, graph, seeds, close(graph, seeds), {})


def _falls_due(case: Case, measures: Measures) -> tuple[Due, ...]:
    """What runs out of its planned life before the planned service ends, or has already."""
    return tuple(
        due for due in dues(case, measures.wears) if measures.wears[due.component].use_left() < case.use
    )


def _attention(case: Case, measures: Measures) -> tuple[str, ...]:
    wheel_lock = wheel_lock_of(measures)
    said: list[str] = []
    if not wheel_lock.met:
        said.append(too_risky(wheel_lock, whole=True))
    if any(not used.known for used in case.used.values()):
        said.append(say("Its history is not known: every part is counted half used."))
    return tuple(said)
