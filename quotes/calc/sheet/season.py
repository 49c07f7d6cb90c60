"""The season of an option for the sheet: each service with its work, price, chance and dates."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.calc.life.draws import band, chances, mean_chance
from quotes.calc.life.horizon import GoodFor, good_for
from quotes.calc.life.stretches import DAYS_PER_YEAR
from quotes.calc.life.units import season
from quotes.calc.money.totals import Totals
from quotes.calc.scope.case import Case
from quotes.calc.scope.season import SeasonStep
from quotes.calc.sheet.base_values import Likely, Ready, Spread
from quotes.calc.sheet.job import job_ready, job_sums
from quotes.calc.sheet.measures import Measures, in_planned_unit, planned_unit, service
from quotes.calc.sheet.season_values import SeasonPlan, SeasonService
from quotes.calc.sheet.season_words import BUILD, done_in_words, season_in_words
from quotes.calc.sheet.sheet_lines import if_needed_lines


def season_plan(
    steps: Sequence[SeasonStep], driven: Measures, first: Totals, first_ready: Ready
) -> SeasonPlan:
    """The plan of these steps; the first job's sums and dates are the option's own."""
    case = steps[0].scope.case
    begins_on = _begins_on(case, first_ready)
    services = [_first(steps[0], driven, first, first_ready)]
    services += [_opened(number, step, driven, begins_on) for number, step in enumerate(steps) if number]
    sums = {which: _sum([getattr(each, which) for each in services]) for which in ("net", "tax", "gross")}
    openings = [(each.begins.amount, each.done) for each in services[1:]]
    per_unit = sums["gross"].typical / Decimal(str(in_planned_unit(case, case.use)))
    per_season = per_unit * Decimal(str(in_planned_unit(case, season(case.duty))))
    decimals = case.shop.decimals
    return SeasonPlan(
        services=tuple(services),
        **sums,
        hours=sum((each.hours for each in services), Decimal(0)),
        chance=driven.drive.whole,
        run_through=_run_through(case, driven),
        wheel_lock=driven.drive.wheel_lock_in_all,
        per_season=driven.chance ** (season(case.duty) / case.use),
        cost_per_season=round_half_up(per_season, decimals),
        cost_per_unit=round_half_up(per_unit, decimals),
        begins_on=begins_on,
        sentence=season_in_words(in_planned_unit(case, case.use), planned_unit(case), openings),
    )


def _begins_on(case: Case, ready: Ready) -> date:
    """The first meeting, or the day for which the engine is promised where that is later or all we know."""
    first = case.request.planned.first_meeting
    return ready.p80 if first is None else max(first, ready.p80)


def _first(step: SeasonStep, driven: Measures, sums: Totals, ready: Ready) -> SeasonService:
    case = step.scope.case
    return _service(0, step, driven, sums, ready, case.request.on, driven.good_for())


def _opened(number: int, step: SeasonStep, driven: Measures, begins_on: date) -> SeasonService:
    """An opening: at today's prices, on the day that even use brings it, its parts ordered ahead.

    The queue is not yet known.
    """
    case, whole = step.scope.case, driven.case
    on = begins_on + timedelta(days=round(DAYS_PER_YEAR * step.begins / season(case.duty)))
    queue = replace(case.shop.queue, hours_in_hand=Decimal(0))
    wears = {code: each.wear for code, each in step.scope.plan.fitted(case).items()}
    faults = step.scope.plan.faults * case.shop.assembly_fault_chance
    bound = good_for(wears, case.catalogue, case.shop, use=whole.use, fault_hazard=faults)
    sums = job_sums(step.scope, if_needed_lines(step.scope))
    ready = job_ready(step.scope, on, queue, parts_at_hand=True)
    return _service(number, step, driven, sums, ready, on, bound)


def _service(
    number: int,
    step: SeasonStep,
    driven: Measures,
    sums: Totals,
    ready: Ready,
    on: date,
    bound: GoodFor,
) -> SeasonService:
    plan, whole = step.scope.plan, driven.case
    components, operations = whole.catalogue.components, whole.catalogue.operations
    work = tuple(code for code in operations if code in plan.operations)
    return SeasonService(
        number=number + 1,
        begins=service(whole, step.begins),
        length=service(whole, step.use),
        done=done_in_words(step.scope) if number else say(BUILD),
        renewed={code: components[code].name for code in components if code in plan.new},
        reconditioned={code: components[code].name for code in components if code in plan.reconditioned},
        operations=work,
        hours=sum((operations[code].hours for code in work), Decimal(0)),
        net=sums.net,
        tax=sums.tax,
        gross=sums.gross,
        chance=driven.drive.service(number),
        wheel_lock=driven.drive.wheel_locks[number],
        good_for=service(whole, bound.use),
        good_for_reason=bound.reason,
        opened_on=on,
        ready=ready,
    )


def _sum(spreads: Sequence[Spread]) -> Spread:
    low, typical, high = (
        sum((getattr(each, which) for each in spreads), Decimal(0)) for which in ("low", "typical", "high")
    )
    return Spread(low=low, typical=typical, high=high)


def _run_through(case: Case, driven: Measures) -> Likely:
    """The first build alone to the end of the planned service."""
    factor, faults = case.shop.shop_factor, driven.fault_hazard
    mean = mean_chance(driven.fitted, case.use, shop_factor=factor, fault_hazard=faults)
    low, high = band(chances(driven.fitted, case.use, shop_factor=factor, fault_hazard=faults))
    return Likely(value=mean, low=low, high=high)
