"""One component opened: its age, its rate of wear by cause, its life and evidence, and its hazard."""

from __future__ import annotations

import math

from catalogue.calc.engine import Component
from catalogue.calc.said import say, say_count, to_say
from quotes.calc.ask.request import Unit
from quotes.calc.life.units import UNITS_OF_BASIS
from quotes.calc.life.wear import Wear
from quotes.calc.origin.age import age
from quotes.calc.origin.chance import in_service
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.rate import service_wear, sources
from quotes.calc.origin.values import MINUS, TIMES, Origin, hazard, number
from quotes.calc.origin.worked import WorkedWay
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.sheet.words import (
    amount_in_words,
    estimate_in_words,
    first_large,
    risk_in_words,
    used_in_words,
)

FATES = {"renewed": to_say("new"), "reconditioned": to_say("put right")}
AS_IT_IS = to_say("as it is")
CHECKS = {
    "each_meeting": to_say("The engine is checked each meeting: the component's own share holds."),
    "each_season": to_say("The engine is checked once a season: half of the warnings are missed."),
    "never": to_say("The engine is not checked in between: every failure stops it."),
}


def component(told: WorkedWay, code: str) -> Origin:
    """What a component does to the chance, down to where each figure was taken from."""
    amount = told.hazards[code]
    alone = risk_in_words(100 * -math.expm1(-told.shop.shop_factor * amount))
    several = len(told.jobs) > 1
    return Origin(
        first_large(told.catalogue.components[code].name),
        say("{risk} stopped by it alone; {hazard}", risk=alone, hazard=hazard(amount)),
        say(
            "How likely a part of this age is to stop the engine over this service, its life known no better "
            "than the evidence allows."
        ),
        parts=tuple(in_one(told, job, code) for job in told.jobs) if several else story(told.first, code),
        adds="sum" if several else "",
        exact=amount,
        key=f"component:{code}",
    )


def in_one(told: WorkedWay, job: WorkedJob, code: str) -> Origin:
    """Its hazard in one service between openings, and how it comes about."""
    fate = FATES.get(job.fates.get(code, ""), AS_IT_IS)
    unit = UNITS_OF_BASIS[job.case.duty.basis]
    amount = in_service(told, job, code)
    return Origin(
        say(
            "{part} in service {number}, {amount}, {fate}",
            part=first_large(told.catalogue.components[code].name),
            number=job.number,
            amount=estimate_in_words(job.use, unit),
            fate=say(fate),
        ),
        hazard(amount),
        parts=(*story(job, code), *_so_far(told, job, code)),
        exact=amount,
        key=job.service_key(f"component:{code}"),
    )


def _so_far(told: WorkedWay, job: WorkedJob, code: str) -> tuple[Origin, ...]:
    """Of a part that stays over several services: all that its hazard has come to, less what it had before.

    An opening neither renews such a part nor proves it, so its services count as one.
    """
    drive, factor = told.driven.drive, told.shop.shop_factor or 1.0
    service = drive.services[job.number - 1]
    serves = (each for each in drive.course.articles if each.code == code)
    article = next(each for each in serves if each.begins <= service.start < each.ends)
    if article.begins == service.start:
        return ()
    row = drive.course.hazards(article) / factor
    upto, before = float(row[: service.stop].sum()), float(row[: service.start].sum())
    part = Origin(
        say("Hazard of this service"),
        hazard(upto - before),
        say("The same part serves on: an opening neither renews nor proves it."),
        parts=(
            Origin(say("From its first service to the end of this one"), hazard(upto), exact=upto),
            Origin(say("Less that of the services before"), f"{MINUS}{hazard(before)}", exact=-before),
        ),
        adds="sum",
        exact=upto - before,
    )
    return (part,)


def story(job: WorkedJob, code: str) -> tuple[Origin, ...]:
    """Age, wear, life and evidence of the article that the service begins with."""
    wear, one = job.wears[code], job.catalogue.components[code]
    return (
        age(job, code),
        service_wear(job, code),
        _life(job, wear, one),
        _evidence(job, wear, one),
        _stopping(job, wear, one),
        _hazard(wear, job.use),
        left(job, code),
    )


def _hazard(wear: Wear, use: float) -> Origin:
    """The formula with this component's figures in it."""
    return Origin(
        say("Hazard of the service"),
        hazard(wear.stopping_hazard(use)),
        say(
            "r0 {times} ln(1 + s {times} D / b) = {evidence} {times} ln(1 + {stopping} {times} {damage}), "
            "where D = (age + wear of the service)^beta {minus} age^beta and b = r0 {times} eta^beta + "
            "age^beta.",
            times=TIMES,
            minus=MINUS,
            evidence=number(wear.evidence, 3),
            stopping=number(wear.stopping, 3),
            damage=number(wear.damage(use) / wear.prior_scale, 6),
        ),
    )


def _life(job: WorkedJob, wear: Wear, one: Component) -> Origin:
    basis = job.case.duty.basis
    unit = UNITS_OF_BASIS[basis]
    life, quantile = one.lives[basis], job.catalogue.life_quantile[basis]
    return Origin(
        say("Life"),
        amount_in_words(wear.life, unit),
        say(
            "By then {count} in 100 sets have failed or are past their limits. In the catalogue between "
            "{low} and {high}.",
            count=round(100 * quantile),
            low=amount_in_words(life.low, unit),
            high=amount_in_words(life.high, unit),
        ),
        sources(one.source_on(basis), _confidence(one)),
        parts=(_eta(wear, quantile, unit), _shape(wear)),
    )


def _eta(wear: Wear, quantile: float, unit: Unit) -> Origin:
    return Origin(
        say("Characteristic life, eta"),
        estimate_in_words(wear.eta, unit),
        say(
            "life / ({minus}ln(1 {minus} {quantile}))^(1/beta): the age by which 63 in 100 have failed",
            minus=MINUS,
            quantile=plain_figure(quantile),
        ),
    )


def _shape(wear: Wear) -> Origin:
    rule = say("it does not wear out")
    if wear.shape > 1:
        rule = say("above 1 it wears out, the higher the more suddenly")
    return Origin(say("Shape, beta"), number(wear.shape, 3), rule, say("the catalogue"))


def _confidence(one: Component) -> str:
    return say("confidence {word}", word=say(one.life_confidence)) if one.life_confidence else ""


def _evidence(job: WorkedJob, wear: Wear, one: Component) -> Origin:
    seen = job.catalogue.teardowns_seen
    own = say_count("{count} strip-down of our own", "{count} strip-downs of our own", seen)
    return Origin(
        say("Evidence, r0"),
        say("worth {count} failures", count=number(wear.evidence, 3)),
        say(
            "How much the life is trusted: the fewer, the wider the band. Behind all lives together stand "
            "{own}.",
            own=own if seen else say("no strip-downs of our own"),
        ),
        say("the catalogue; from memory")
        if wear.evidence == one.evidence_r0
        else one.source_on(job.case.duty.basis),
    )


def _stopping(job: WorkedJob, wear: Wear, one: Component) -> Origin:
    checks = job.case.request.checks
    return Origin(
        say("Share that stops the engine, s"),
        number(wear.stopping, 3),
        say(
            "Of its failures {share} come without warning. {checks}",
            share=number(one.stopping_share, 3),
            checks=say(CHECKS[checks]),
        ),
        say("the catalogue; from memory"),
    )


def left(job: WorkedJob, code: str) -> Origin:
    """How far it runs until its planned life is reached."""
    wear, one = job.wears[code], job.catalogue.components[code]
    unit, use_left = UNITS_OF_BASIS[job.case.duty.basis], wear.use_left()
    after = (wear.age + wear.rate * job.use) / wear.life
    runs_out = math.isfinite(use_left)
    to_go = max(0.0, wear.life - wear.age)
    parts = (
        Origin(say("Its life, less its age"), estimate_in_words(to_go, unit), exact=to_go),
        Origin(say("Over the rate of wear"), f"1 / {number(wear.rate, 4)}", exact=1.0 / (wear.rate or 1.0)),
    )
    return Origin(
        say("Left of its planned life"),
        estimate_in_words(use_left, unit) if runs_out else say("no end"),
        say(
            "(life {minus} age) / rate. At the end of it {share} is used.",
            minus=MINUS,
            share=used_in_words(after),
        ),
        say("judged by its life")
        if one.judged_by == "life"
        else say("judged when it is seen, not by its life"),
        parts if runs_out else (),
        "product" if runs_out else "",
        use_left if runs_out else None,
    )
