"""What must be said of an option: before it is sold, and beside its figures."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.said import say, say_figure, say_inside, to_say
from quotes.calc.said_days import said_day
from quotes.calc.scope.case import Case
from quotes.calc.scope.damage import companions, damaged_by
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.season import Season
from quotes.calc.sheet.base_values import Ready
from quotes.calc.sheet.chance_values import WheelLock
from quotes.calc.sheet.lock_words import too_risky
from quotes.calc.sheet.measures import in_planned_unit, planned_unit
from quotes.calc.sheet.reasons import Remaining
from quotes.calc.sheet.wording import in_a_row
from quotes.calc.sheet.words import chance_in_words, estimate_in_words

_CHANGES = {
    "compression": to_say("compression"),
    "cams": to_say("cams"),
    "porting": to_say("porting"),
    "weight": to_say("weight"),
}


def breaks_class(case: Case) -> tuple[str, ...]:
    """What the tune changes that the customer's class does not allow."""
    rule = case.shop.classes.get(case.request.class_code or "")
    return () if rule is None else tuple(sorted(case.tune.breaks - rule.allows))


def attention(scope: Scope, wheel_lock: WheelLock, remaining: Remaining, ready: Ready) -> tuple[str, ...]:
    """Everything that must be said before this option is sold."""
    return (
        *_budget(scope),
        *_rider_safety(scope, wheel_lock, remaining),
        *_class(scope.case),
        *_history(scope),
        *_date(scope.case, ready),
    )


def _budget(scope: Scope) -> Iterator[str]:
    budget, decimals = scope.case.request.budget, scope.case.shop.decimals
    least = scope.pricing.totals(scope.plan).gross.typical
    if budget is not None and least > budget:
        yield (
            say(
                "The budget does not pay for the least that may be done: that costs {least}, {more} more "
                "than {budget}. Nothing was left out of it.",
                least=say_figure(least, decimals),
                more=say_figure(least - budget, decimals),
                budget=say_figure(budget, decimals),
            )
        )


def _rider_safety(scope: Scope, wheel_lock: WheelLock, remaining: Remaining) -> Iterator[str]:
    if not wheel_lock.met:
        yield too_risky(wheel_lock, whole=scope.case.leg >= scope.case.use)
    for risk in remaining.left.values():
        if risk.refused_by:
            left = say(
                "Left against our advice, signed by {name}: {part}.", name=risk.refused_by, part=risk.name
            )
            safety = say("It can lock the wheel or oil the tyre.")
            yield f"{left} {safety}" if risk.rider_safety else left


def _class(case: Case) -> Iterator[str]:
    broken = breaks_class(case)
    if broken:
        rule = case.shop.classes[case.request.class_code or ""]
        changes = ", ".join(say(_CHANGES.get(each, each)) for each in broken)
        yield say(
            "Changes {changes}, which the class {name} does not allow.", changes=changes, name=rule.name
        )


def _history(scope: Scope) -> Iterator[str]:
    case = scope.case
    staying = [c for c in case.levels if c not in scope.plan.new and c not in scope.plan.reconditioned]
    beyond = [code for code in staying if case.levels[code].beyond_known]
    if beyond:
        parts = in_a_row(case, beyond)
        yield say("So far past their planned life that nothing is known of it: {parts}.", parts=parts)
    unknown = [code for code in staying if not case.used[code].known]
    if unknown:
        yield say("Its history is not known: what stays is counted half used until it has been measured.")


def _date(case: Case, ready: Ready) -> Iterator[str]:
    first = case.request.planned.first_meeting
    if first is not None and ready.p80 >= first:
        yield say(
            "We can promise it, 8 in 10, by {ready}: not before the first meeting on {first}.",
            ready=said_day(ready.p80),
            first=said_day(first),
        )


def notes(scope: Scope, season: Season) -> tuple[str, ...]:
    """What explains the figures: a target out of reach, an opening on the way, the tune it came in.

    And what should be looked at for a damage, but lies behind more than this option opens.
    """
    return (
        *_target(scope),
        *_proof(scope),
        *_leg(scope, season),
        *_tune(scope.case),
        *_not_looked_at(scope),
    )


def _proof(scope: Scope) -> Iterator[str]:
    if not scope.proven:
        yield say(
            "The time for looking was up before it was proven that no plan is better: this is the best that "
            "was found, and there may be a cheaper one as good."
        )


def _not_looked_at(scope: Scope) -> Iterator[str]:
    catalogue, closed = scope.case.catalogue, dict[str, list[str]]()
    damaged = damaged_by(scope.case.request, catalogue)
    for each in companions(damaged, catalogue, scope.graph, scope.plan.parents):
        if each.does == "closed":
            closed.setdefault(each.damaged, []).append(catalogue.components[each.component].name)
    for code, names in closed.items():
        yield say(
            "For the {part}, found damaged, these should be looked at too, but this option does not open the "
            "engine that far: {names}.",
            part=catalogue.components[code].name,
            names=", ".join(names),
        )


def _target(scope: Scope) -> Iterator[str]:
    if scope.target is not None and scope.left_by_hand and not scope.target_met:
        yield say(
            "With what is left by hand this plan reaches {reached}; the aim was {aim}. Nothing else was "
            "taken in its place.",
            reached=chance_in_words(scope.reached),
            aim=chance_in_words(scope.target),
        )
    elif scope.target is not None and not scope.target_met:
        asked = scope.case.request.target
        if asked is not None and scope.case.leg < scope.case.use:
            yield say(
                "The aim, {aim} over all, can't be reached, not even with everything renewed at every "
                "opening: this plan comes within half a per cent of the best.",
                aim=chance_in_words(float(asked)),
            )
            return
        yield say(
            "The aim, {aim}, can't be reached this way: the best is {best}, and this plan comes within half "
            "a per cent of it.",
            aim=chance_in_words(scope.target),
            best=chance_in_words(scope.best),
        )


def _leg(scope: Scope, season: Season) -> Iterator[str]:
    case = scope.case
    if case.leg < case.use:
        amount = estimate_in_words(in_planned_unit(case, case.leg), planned_unit(case))
        yield say(
            "Even an all-new engine of this tune is opened again inside this service: the scope is worked "
            "out for the first {amount}, {chance} to get there without a stop.",
            amount=amount,
            chance=chance_in_words(scope.reached),
        )
    if season.no_plan:
        yield say(
            "No plan of openings is made: {why}. The chance is for running it through.", why=season.no_plan
        )


def _tune(case: Case) -> Iterator[str]:
    if case.tune is not case.tier:
        yield say(
            "The engine came in as {tune} and stays so: this freshens it as it is, and it is judged on that "
            "tune.",
            tune=say_inside(case.fitted.name),
        )
    elif case.tier.rank and not case.adds_tune:
        yield say(
            "The engine came in as {tune} already: its changes are not sold again.",
            tune=say_inside(case.fitted.name),
        )
