"""An option, or leaving it, worked out again with all that its figures rest on, so that each opens."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request, Unit
from quotes.calc.life.horizon import GoodFor
from quotes.calc.money.pricing import Pricing
from quotes.calc.money.totals import Totals
from quotes.calc.origin.job import WorkedJob
from quotes.calc.scope.case import Case, make_case
from quotes.calc.scope.decide import Scope, decide
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.ladder import Rung, rungs
from quotes.calc.scope.season import SeasonStep
from quotes.calc.sheet.job import job_sums
from quotes.calc.sheet.leave_it import oil_and_filter, run_on, without_hand
from quotes.calc.sheet.life_bars import fates_of
from quotes.calc.sheet.measures import Measures, drive_scope
from quotes.calc.sheet.sheet_lines import if_needed_lines
from quotes.calc.sheet.values import LeaveIt, Option
from quotes.calc.shop import Shop
from quotes.calc.work.order import order_of_work


@dataclass(frozen=True)
class WorkedWay:
    """A way of building, or leaving it, with the measures that made its figures.

    `measures` are those of its first job, `driven` those of the planned service with its openings made.
    """

    jobs: tuple[WorkedJob, ...]
    """One for each service."""
    measures: Measures
    driven: Measures
    shown: Option | LeaveIt

    @property
    def first(self) -> WorkedJob:
        return self.jobs[0]

    @property
    def case(self) -> Case:
        return self.first.case

    @property
    def shop(self) -> Shop:
        return self.case.shop

    @property
    def catalogue(self) -> EngineCatalogue:
        return self.case.catalogue

    @property
    def unit(self) -> Unit:
        """The unit that amounts of use are said in."""
        return self.first.unit

    @cached_property
    def hazards(self) -> Mapping[str, float]:
        """What each component adds to the hazard of the planned service, shop factor left out."""
        factor = self.shop.shop_factor or 1.0
        return {code: hazard / factor for code, hazard in self.driven.drive.hazards.items()}

    @cached_property
    def bound(self) -> GoodFor:
        return self.measures.good_for()


@dataclass(frozen=True)
class Explained(WorkedWay):
    """An option as it is shown, with the scope that made it."""

    scope: Scope
    steps: tuple[SeasonStep, ...]
    option: Option

    @cached_property
    def rungs(self) -> tuple[Rung, ...]:
        """The plans of the ladder's steps, in its order."""
        return tuple(rungs(self.scope))


@dataclass(frozen=True)
class LeftAlone(WorkedWay):
    """The engine as it is, with oil and filter at most."""

    column: LeaveIt


Way = Explained | LeftAlone


def explain(request: Request, catalogue: EngineCatalogue, shop: Shop, option: Option) -> Explained:
    """Decide the option's scope again; the request must be the one that the option was worked out from."""
    scope = decide(grounds_of(make_case(request, catalogue, shop, option.tier)))
    run = drive_scope(scope)
    jobs = _jobs(run.course.steps, run.build, option)
    return Explained(jobs, run.build, run.service, option, scope, run.course.steps, option)


def _jobs(steps: Sequence[SeasonStep], build: Measures, option: Option) -> tuple[WorkedJob, ...]:
    jobs = [_built(steps[0], build, option)]
    for step in steps[1:]:
        jobs.append(_opened(step, jobs[-1], option))
    return tuple(jobs)


def _built(step: SeasonStep, build: Measures, option: Option) -> WorkedJob:
    """The first job, as its sheet says it."""
    scope = step.scope
    return WorkedJob(
        case=scope.case,
        plan=scope.plan,
        pricing=scope.pricing,
        sums=Totals(option.net, option.tax, option.gross, option.tax_groups),
        if_needed=option.if_needed,
        lines_shown=option.lines,
        operations=option.operations,
        fitted=build.fitted,
        fates=fates_of(scope.plan),
        faults=build.faults,
        begins=0.0,
        use=step.use,
        on=scope.case.request.on,
    )


def _opened(step: SeasonStep, before: WorkedJob, option: Option) -> WorkedJob:
    """The job of an opening. Its sums stand in the season, its lines on no sheet."""
    scope, number = step.scope, before.number + 1
    if_needed = if_needed_lines(scope)
    on = option.season.services[number - 1].opened_on if option.season else scope.case.request.on
    return WorkedJob(
        case=scope.case,
        plan=scope.plan,
        pricing=scope.pricing,
        sums=job_sums(scope, if_needed),
        if_needed=if_needed,
        lines_shown=(),
        operations=order_of_work(scope.case.catalogue, scope.plan.operations),
        fitted=scope.plan.fitted(scope.case),
        fates=fates_of(scope.plan),
        faults=scope.plan.faults,
        begins=step.begins,
        use=step.use,
        on=on,
        number=number,
        before=before,
    )


def explain_left(request: Request, catalogue: EngineCatalogue, shop: Shop, column: LeaveIt) -> LeftAlone:
    """Leaving it, run through again; the request must be the one that the column was worked out from."""
    standard = min(catalogue.tiers, key=lambda code: catalogue.tiers[code].rank)
    case = make_case(request, catalogue, shop, standard)
    measures, plan, priced = run_on(case), oil_and_filter(case), without_hand(case)
    pricing = Pricing(priced)
    job = WorkedJob(
        case=priced,
        plan=plan,
        pricing=pricing,
        sums=pricing.totals(plan),
        if_needed=(),
        lines_shown=(),
        operations=order_of_work(catalogue, plan.operations),
        fitted=measures.fitted,
        fates={},
        faults=0,
        begins=0.0,
        use=case.use,
        on=request.on,
    )
    return LeftAlone((job,), measures, measures, column, column)
