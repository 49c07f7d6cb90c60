"""One option: a decided scope turned into the figures, lines and sentences of a sheet."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.engine import Band
from catalogue.calc.money import round_half_up
from quotes.calc.dates.arrival import sent_out, shipments_of
from quotes.calc.dates.schedule import bench_hours, ready_dates
from quotes.calc.life.draws import Draws
from quotes.calc.life.horizon import GoodFor
from quotes.calc.life.units import season
from quotes.calc.money.tax import deposit
from quotes.calc.money.totals import Totals
from quotes.calc.scope.case import Case
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.implications import Node, close
from quotes.calc.scope.ladder import ladder
from quotes.calc.sheet.exposure import exposure_of
from quotes.calc.sheet.life_bars import fates_of, life_bars
from quotes.calc.sheet.measures import (
    Measures,
    chance_of,
    dues,
    in_planned_unit,
    measure,
    openings,
    planned_unit,
    service,
    stops_in_100,
    wheel_lock_of,
    where_the_chance_goes,
)
from quotes.calc.sheet.reasons import reconditioned, remaining, renewed
from quotes.calc.sheet.saying import attention, breaks_class, notes
from quotes.calc.sheet.sheet_lines import if_needed_lines, if_needed_sum, sheet_lines
from quotes.calc.sheet.tune_figures import tune_figures
from quotes.calc.sheet.values import Option, Range, Ready, Spread, WorkStep
from quotes.calc.work.order import order_of_work
from quotes.calc.work.work_set import included_elsewhere

TOP_GROUPS = frozenset({"top_end", "valve_train"})
"""Groups that a top-end job is made of; the rest is the other job that strip-down is shared with."""


@dataclass(frozen=True)
class Worked:
    """An option with the draws that it is compared by."""

    option: Option
    draws: Draws


def work_out(scope: Scope) -> Worked:
    """The option of a scope; comparison with the others is added when all are there."""
    case = scope.case
    measures = measure(case, scope.plan.fitted(case), scope.plan.faults)
    bound = measures.good_for()
    stops = stops_in_100(measures)
    rest = remaining(scope, measures, stops)
    ready = _ready(scope)
    wheel_lock = wheel_lock_of(measures)
    if_needed = if_needed_lines(scope)
    sums = _with_what_strip_down_may_add(scope.pricing.totals(scope.plan), if_needed_sum(if_needed), scope)
    steps = order_of_work(case.catalogue, scope.plan.operations)
    operations = case.catalogue.operations
    states = {
        **dict.fromkeys(scope.plan.new, "renewed"),
        **dict.fromkeys(scope.plan.reconditioned, "brought back"),
    }
    opening = scope.reached if case.leg < case.use and scope.span < case.use else None
    fields = {
        "tier": case.tier.code,
        "name": case.tier.name,
        "purpose": case.tier.purpose,
        "promise": case.tier.promise,
        "tune": case.tune.code,
        "net": sums.net,
        "tax": sums.tax,
        "gross": sums.gross,
        "tax_groups": sums.groups,
        "hours": sum((operations[o].hours for o in steps), Decimal(0)),
        "operations": steps,
        "work": tuple(
            WorkStep(code=o, name=operations[o].name, kind=operations[o].kind, hours=operations[o].hours)
            for o in steps
        ),
        "shared_hours_saved": _shared_hours_saved(scope),
        "lines": sheet_lines(scope),
        "renewed": renewed(scope),
        "reconditioned": reconditioned(scope),
        "offered": rest.offered,
        "left": rest.left,
        "if_needed": if_needed,
        "chance": chance_of(measures, scope.target, met=scope.target_met, opening=opening),
        "wheel_lock": wheel_lock,
        "where_the_chance_goes": where_the_chance_goes(measures, states, stops),
        "attention": attention(scope, wheel_lock, rest, ready),
        "breaks_class": breaks_class(case),
        "ready": ready,
        "ladder": ladder(scope),
        "notes": notes(scope),
        "deposit": deposit(sums.gross.typical, case.shop),
        "against": (),
        "tune_figures": tune_figures(case, measures),
        "lives": life_bars(measures, fates_of(scope.plan)),
        "exposure": exposure_of(measures),
    }
    return Worked(Option(**fields, **_how_far(case, measures, bound, sums)), measures.draws)


def _how_far(case: Case, measures: Measures, bound: GoodFor, sums: Totals) -> dict[str, object]:
    """How long it lasts, what that costs, and what it gives."""
    unit = planned_unit(case)
    amount = in_planned_unit(case, bound.use)
    per_unit = sums.gross.typical / Decimal(str(max(amount, 1e-6)))
    per_season = per_unit * Decimal(str(in_planned_unit(case, season(case.duty))))
    found = dues(case, measures.wears)
    loss = case.request.loss
    chance = Decimal(str(round(measures.chance, 6)))
    decimals = case.shop.decimals
    return {
        "good_for": service(case, bound.use),
        "good_for_reason": bound.reason,
        "openings": openings(case, bound),
        "first_due": found[0] if found else None,
        "power_gain_pct": _power_gain(case),
        "power_note": case.tune.power_note,
        "cost_per_season": round_half_up(per_season, decimals),
        "cost_per_unit": round_half_up(per_unit, decimals),
        "cost_unit": unit,
        "expected_loss": None
        if loss is None
        else round_half_up(sums.gross.typical + loss * (1 - chance), decimals),
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


def _with_what_strip_down_may_add(sums: Totals, extra: Decimal, scope: Scope) -> Totals:
    """The high end of the band with what is priced and not included; nothing is added once stripped."""
    if scope.case.request.stripped or not extra:
        return sums
    rate = max((group.rate_pct for group in sums.groups), default=Decimal(0))
    tax = round_half_up(extra * rate / 100, scope.case.shop.decimals)
    return Totals(
        net=_higher(sums.net, extra),
        tax=_higher(sums.tax, tax),
        gross=_higher(sums.gross, extra + tax),
        groups=sums.groups,
    )


def _higher(spread: Spread, extra: Decimal) -> Spread:
    return spread.model_copy(update={"high": spread.high + extra})


def _ready(scope: Scope) -> Ready:
    """The three dates: queue, strip-down, parts and machine work, then the bench."""
    case, plan = scope.case, scope.plan
    found = (case.part(code) for code in (*plan.bought, *plan.singly))
    parts = [part for part in found if part is not None]
    work = [case.catalogue.machine_work[code] for code in plan.machine_work]
    hours = bench_hours(case.catalogue, plan.operations)
    return ready_dates(
        case.request.on,
        case.shop.queue,
        hours.strip,
        hours.assembly,
        shipments_of(sorted(parts, key=lambda part: part.number)),
        sent_out(work, parts).values(),
    )


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
