"""The price of a step of the ladder opened: line by line, and what it adds to that of the step before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.money.pricing import Pricing
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.sums import gross
from quotes.calc.origin.values import MINUS, Origin, money
from quotes.calc.origin.worked import Explained
from quotes.calc.scope.case import make_case
from quotes.calc.sheet.chance_values import LadderStep
from quotes.calc.sheet.leave_it import oil_and_filter, without_hand
from quotes.calc.sheet.life_bars import fates_of
from quotes.calc.sheet.words import first_large
from quotes.calc.work.order import order_of_work


def step_gross(told: Explained, place: int) -> Origin:
    """What the job of a step comes to."""
    return gross(job_of_step(told, place)).without_hours()


def more(told: Explained, place: int) -> Origin:
    """What a step costs over the one before, line by line; the first over leaving it."""
    found, decimals = at_step(told, place), told.shop.decimals
    if place == 1:
        return _over_leaving(told, found)
    job, before = found.job, job_of_step(told, place - 1)
    parts = tuple(_changed(job, before, decimals))
    return Origin(
        say("More than step {number}", number=place - 1),
        money(found.shown.more, decimals),
        say("Every line and tax that is another than in the step before: what it is now, less what it was."),
        parts=parts,
        adds="sum",
        exact=found.shown.more,
        key=f"step:{place}:more",
    )


def job_of_step(told: Explained, place: int) -> WorkedJob:
    """The first job as a step would have it. KeyError where the ladder has no such step."""
    return at_step(told, place).job


@dataclass(frozen=True, slots=True)
class PricedStep:
    """One as the sheet shows it, with the job that it would be."""

    shown: LadderStep
    job: WorkedJob


def at_step(told: Explained, place: int) -> PricedStep:
    """A step by its number. KeyError where the ladder has none of it."""
    if not 1 <= place <= len(told.rungs) or place > len(told.option.ladder):
        raise KeyError(f"step:{place}")
    scope, plan = told.scope, told.rungs[place - 1].plan
    job = WorkedJob(
        case=scope.case,
        plan=plan,
        pricing=scope.pricing,
        sums=scope.pricing.totals(plan),
        if_needed=(),
        lines_shown=(),
        operations=order_of_work(told.catalogue, plan.operations),
        fitted=plan.fitted(scope.case),
        fates=fates_of(plan),
        faults=plan.faults,
        begins=0.0,
        use=scope.span,
        on=scope.case.request.on,
        step=place,
    )
    return PricedStep(told.option.ladder[place - 1], job)


def _over_leaving(told: Explained, found: PricedStep) -> Origin:
    standard = min(told.catalogue.tiers, key=lambda code: told.catalogue.tiers[code].rank)
    case = make_case(told.case.request, told.catalogue, told.shop, standard)
    left = Pricing(without_hand(case)).gross(oil_and_filter(case))
    whole, decimals = found.shown.gross, told.shop.decimals
    return Origin(
        say("More than leaving it"),
        money(whole - left, decimals),
        parts=(
            Origin(say("With tax"), money(whole, decimals), exact=whole, key="step:1:gross"),
            Origin(
                say("Less leaving it, with oil and filter"), f"{MINUS}{money(left, decimals)}", exact=-left
            ),
        ),
        adds="sum",
        exact=whole - left,
        key="step:1:more",
    )


def _changed(job: WorkedJob, before: WorkedJob, decimals: int) -> Iterator[Origin]:
    """Lines in the order of the sum, those that fall away last, then taxes."""
    for key in dict.fromkeys([*job.lines, *before.lines]):
        now = job.lines[key].net if key in job.lines else ZERO
        was = before.lines[key].net if key in before.lines else ZERO
        if now != was:
            line = job.lines.get(key) or before.lines[key]
            holder = job if key in job.lines else before
            yield _difference(line.description, now, was, decimals, holder.key(f"line:{key}"))
    taxes = [{group.code: group.tax for group in each.sums.groups} for each in (job, before)]
    for code in dict.fromkeys([*taxes[0], *taxes[1]]):
        now, was = taxes[0].get(code, ZERO), taxes[1].get(code, ZERO)
        if now != was:
            holder = job if code in taxes[0] else before
            yield _difference(say("Tax"), now, was, decimals, holder.key(f"tax:{code}"))


def _difference(name: str, now: Decimal, was: Decimal, decimals: int, key: str) -> Origin:
    rule = say("{now} less {was}", now=money(now, decimals), was=money(was, decimals)) if was else ""
    return Origin(first_large(name), _signed_money(now - was, decimals), rule, exact=now - was, key=key)


def _signed_money(amount: Decimal, decimals: int) -> str:
    return f"{MINUS}{money(-amount, decimals)}" if amount < 0 else money(amount, decimals)
