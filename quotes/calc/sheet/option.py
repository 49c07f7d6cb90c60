"""One option: a decided scope turned into the figures, lines and sentences of a sheet."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.engine import Band
from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.calc.life.draws import Draws
from quotes.calc.life.units import season
from quotes.calc.money.tax import deposit
from quotes.calc.money.totals import Totals
from quotes.calc.scope.case import Case
from quotes.calc.scope.decide import CLOSE_ENOUGH, Scope
from quotes.calc.scope.freshen import Openings
from quotes.calc.scope.implications import Node, close
from quotes.calc.scope.ladder import ladder
from quotes.calc.sheet.chance_values import Chance, Opening
from quotes.calc.sheet.exposure import exposure_of
from quotes.calc.sheet.job import job_ready, job_sums
from quotes.calc.sheet.life_bars import fates_of, life_bars
from quotes.calc.sheet.line_values import WorkStep
from quotes.calc.sheet.loss import expected_loss
from quotes.calc.sheet.measures import (
    Measures,
    chance_of,
    drive_scope,
    dues,
    in_planned_unit,
    planned_unit,
    service,
    stops_in_100,
    wheel_lock_of,
    where_the_chance_goes,
)
from quotes.calc.sheet.reasons import reconditioned, remaining, renewed
from quotes.calc.sheet.saying import attention, breaks_class, notes
from quotes.calc.sheet.season import season_plan
from quotes.calc.sheet.season_values import SeasonPlan
from quotes.calc.sheet.sheet_lines import if_needed_lines, sheet_lines
from quotes.calc.sheet.tune_figures import tune_figures
from quotes.calc.sheet.values import Option, Range
from quotes.calc.work.order import order_of_work
from quotes.calc.work.work_set import included_elsewhere

TOP_GROUPS = frozenset({"top_end", "valve_train"})
"""Groups that a top-end job is made of; the rest is the other job that strip-down is shared with."""


@dataclass(frozen=True)
class Worked:
    """An option with the draws that it is compared by."""

    option: Option
    draws: Draws


def work_out(scope: Scope, openings: Openings) -> Worked:
    """The option of a scope; comparison with the others is added when all are there."""
    case = scope.case
    run = drive_scope(scope, openings)
    measures, course, driven = run.build, run.course, run.service
    stops = stops_in_100(driven)
    rest = remaining(scope, measures, stops)
    ready = job_ready(scope, case.request.on, case.shop.queue)
    wheel_lock = wheel_lock_of(driven)
    if_needed = if_needed_lines(scope)
    sums = job_sums(scope, if_needed)
    plan = season_plan(course.steps, driven, sums, ready) if course.opened else None
    fields = {
        **_of_tier(case),
        **_money(sums, case),
        **_work(scope),
        "lines": sheet_lines(scope),
        "renewed": renewed(scope),
        "reconditioned": reconditioned(scope),
        "offered": rest.offered,
        "left": rest.left,
        "if_needed": if_needed,
        "chance": _chance(scope, driven, plan),
        "wheel_lock": wheel_lock,
        "where_the_chance_goes": where_the_chance_goes(driven, _states(scope), stops),
        "attention": attention(scope, wheel_lock, rest, ready),
        "ready": ready,
        "ladder": ladder(scope),
        "notes": notes(scope, course),
        "against": (),
        "tune_figures": tune_figures(case, driven),
        "lives": life_bars(measures, fates_of(scope.plan), course.steps[0].use),
        "exposure": exposure_of(measures),
        "season": plan,
        "openings": _openings(plan),
        "expected_loss": expected_loss(case, (plan.gross if plan else sums.gross).typical, driven.chance),
        **_how_far(case, measures, sums, plan),
    }
    return Worked(Option(**fields), driven.draws)


def _of_tier(case: Case) -> dict[str, object]:
    return {
        "tier": case.tier.code,
        "name": case.tier.name,
        "purpose": case.tier.purpose,
        "promise": case.tier.promise,
        "tune": case.tune.code,
        "breaks_class": breaks_class(case),
    }


def _money(sums: Totals, case: Case) -> dict[str, object]:
    return {
        "net": sums.net,
        "tax": sums.tax,
        "gross": sums.gross,
        "tax_groups": sums.groups,
        "deposit": deposit(sums.gross.typical, case.shop),
    }


def _work(scope: Scope) -> dict[str, object]:
    """The operations in the order in which they are done, with their hours."""
    codes = order_of_work(scope.case.catalogue, scope.plan.operations)
    operations = [scope.case.catalogue.operations[code] for code in codes]
    return {
        "operations": codes,
        "hours": sum((each.hours for each in operations), Decimal(0)),
        "work": tuple(
            WorkStep(code=each.code, name=each.name, kind=each.kind, hours=each.hours) for each in operations
        ),
        "shared_hours_saved": _shared_hours_saved(scope),
    }


def _states(scope: Scope) -> dict[str, str]:
    """What is done to each component that is not left as it came."""
    return {
        **dict.fromkeys(scope.plan.new, "renewed"),
        **dict.fromkeys(scope.plan.reconditioned, "brought back"),
    }


def _chance(scope: Scope, driven: Measures, plan: SeasonPlan | None) -> Chance:
    """The chance as planned. An aim that was asked for is one for the whole, else for the first service."""
    if plan is None:
        return chance_of(driven, scope.target, met=scope.target_met)
    opening, asked = plan.services[0].chance, scope.case.request.target
    if asked is None:
        return chance_of(driven, scope.target, met=scope.target_met, opening=opening)
    met = driven.chance >= float(asked) - CLOSE_ENOUGH
    return chance_of(driven, float(asked), met=met, opening=opening)


def _openings(plan: SeasonPlan | None) -> tuple[Opening, ...]:
    """When the engine is opened inside the planned service, and for what."""
    return tuple(
        Opening(
            amount=each.begins.amount,
            unit=each.begins.unit,
            sentence=say("To be opened: {done}.", done=each.done),
        )
        for each in (plan.openings if plan else ())
    )


def _how_far(case: Case, measures: Measures, sums: Totals, plan: SeasonPlan | None) -> dict[str, object]:
    """How long this build lasts, what that costs, and what it gives."""
    bound = measures.good_for()
    found = dues(case, measures.wears)
    per_unit = sums.gross.typical / Decimal(str(max(in_planned_unit(case, bound.use), 1e-6)))
    usual = in_planned_unit(case, season(case.duty))
    per_season = per_unit * Decimal(str(usual))
    decimals = case.shop.decimals
    return {
        "good_for": service(case, bound.use),
        "good_for_reason": bound.reason,
        "first_due": found[0] if found else None,
        "power_gain_pct": _power_gain(case),
        "power_note": case.tune.power_note,
        "cost_per_season": plan.cost_per_season if plan else round_half_up(per_season, decimals),
        "cost_per_unit": plan.cost_per_unit if plan else round_half_up(per_unit, decimals),
        "cost_unit": planned_unit(case),
        "season_use": usual,
    }


def _power_gain(case: Case) -> Range:
    """Power against what is fitted now, in per cent; none where the tune stays."""
    gain, had = case.tune.power_gain_pct, case.fitted.power_gain_pct
    if case.tune is case.fitted:
        own = gain if case.tune.rank == 0 else Band(0.0, 0.0, 0.0)
        return Range(low=own.low, typical=own.typical, high=own.high)
    return Range(
        low=_over(gain.low, had.typical),
        typical=_over(gain.typical, had.typical),
        high=_over(gain.high, had.typical),
    )


def _over(gain_pct: float, had_pct: float) -> float:
    return 100.0 * ((100.0 + gain_pct) / (100.0 + had_pct) - 1.0)


def _shared_hours_saved(scope: Scope) -> Decimal:
    """Hours that a top-end job and the rest, done apart, would take more than together."""
    components = scope.case.catalogue.components
    touched = [node for node in scope.plan.parents if node[0] in {"new", "done"}]
    top = [node for node in touched if components[node[1]].group in TOP_GROUPS]
    rest = [node for node in touched if components[node[1]].group not in TOP_GROUPS]
    if not top or not rest:
        return Decimal(0)
    apart = sum((_hours_of(scope, nodes) for nodes in (top, rest)), Decimal(0))
    return max(Decimal(0), apart - _hours_of(scope, touched))


def _hours_of(scope: Scope, nodes: list[Node]) -> Decimal:
    work = {code for kind, code in close(scope.graph, nodes) if kind == "work"}
    return sum((scope.graph.hours[code] for code in work - included_elsewhere(work)), Decimal(0))
