"""One component opened: its age, its rate of wear by cause, its life and evidence, and its hazard."""

from __future__ import annotations

import math

from catalogue.calc.engine import Component
from quotes.calc.life.units import UNITS_OF_BASIS
from quotes.calc.life.wear import Wear, WearPart, load_strength, wear_parts
from quotes.calc.origin.age import age
from quotes.calc.origin.chance import in_service
from quotes.calc.origin.job import Job
from quotes.calc.origin.values import MINUS, TIMES, Origin, hazard, number
from quotes.calc.origin.worked import Told
from quotes.calc.scope.case import Case
from quotes.calc.sheet.words import (
    amount_in_words,
    estimate_in_words,
    first_large,
    risk_in_words,
    used_in_words,
)

DRIVERS = {
    "inertia": "inertia: weight that is thrown about",
    "gas": "gas load: pressure on the piston",
    "heat": "heat",
    "shifts": "shifts",
    "launches": "launches",
    "dirt": "dirt",
    "time": "time, on the shelf as well",
}
CHECKS = {
    "each_meeting": "The engine is checked each meeting: the component's own share holds.",
    "each_season": "The engine is checked once a season: half of the warnings are missed.",
    "never": "The engine is not checked in between: every failure stops it.",
}


def component(told: Told, code: str) -> Origin:
    """What a component does to the chance, down to where each figure was taken from."""
    amount = told.hazards[code]
    alone = risk_in_words(100 * -math.expm1(-told.shop.shop_factor * amount))
    several = len(told.jobs) > 1
    return Origin(
        first_large(told.catalogue.components[code].name),
        f"{alone} stopped by it alone; {hazard(amount)}",
        "How likely a part of this age is to stop the engine over this service, its life known no better "
        "than the evidence allows.",
        parts=tuple(in_one(told, job, code) for job in told.jobs) if several else _story(told.first, code),
        adds="sum" if several else "",
        exact=amount,
        key=f"component:{code}",
    )


def in_one(told: Told, job: Job, code: str) -> Origin:
    """Its hazard in one service between openings, and how it comes about."""
    fate = {"renewed": "new", "reconditioned": "put right"}.get(job.fates.get(code, ""), "as it is")
    unit = UNITS_OF_BASIS[job.case.duty.basis]
    amount = in_service(told, job, code)
    return Origin(
        f"{first_large(told.catalogue.components[code].name)} in service {job.number}, "
        f"{estimate_in_words(job.use, unit)}, {fate}",
        hazard(amount),
        parts=(*_story(job, code), *_so_far(told, job, code)),
        exact=amount,
        key=job.service_key(f"component:{code}"),
    )


def _so_far(told: Told, job: Job, code: str) -> tuple[Origin, ...]:
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
        "Hazard of this service",
        hazard(upto - before),
        "The same part serves on: an opening neither renews nor proves it.",
        parts=(
            Origin("From its first service to the end of this one", hazard(upto), exact=upto),
            Origin("Less that of the services before", f"{MINUS}{hazard(before)}", exact=-before),
        ),
        adds="sum",
        exact=upto - before,
    )
    return (part,)


def _story(job: Job, code: str) -> tuple[Origin, ...]:
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
        "Hazard of the service",
        hazard(wear.stopping_hazard(use)),
        f"r0 {TIMES} ln(1 + s {TIMES} D / b) = {number(wear.evidence, 3)} {TIMES} "
        f"ln(1 + {number(wear.stopping, 3)} {TIMES} {number(wear.damage(use) / wear.prior_scale, 6)}), where "
        f"D = (age + wear of the service)^beta {MINUS} age^beta and b = r0 {TIMES} eta^beta + age^beta.",
    )


def service_wear(job: Job, code: str) -> Origin:
    """What the service wears of the part's reference life."""
    wear, unit = job.wears[code], UNITS_OF_BASIS[job.case.duty.basis]
    worn = wear.rate * job.use
    return Origin(
        "Wear of the service",
        f"{estimate_in_words(worn, unit)} of its reference life",
        f"{amount_in_words(job.use, unit)} {TIMES} rate of wear",
        parts=(Origin("Use", amount_in_words(job.use, unit), exact=job.use), _rate(job, code)),
        adds="product",
        exact=worn,
    )


def _rate(job: Job, code: str) -> Origin:
    """How fast this duty and tune wear it, cause by cause."""
    case, wear, one = job.case, job.wears[code], job.catalogue.components[code]
    strength = load_strength(job.catalogue, code, job.grade(code))
    causes = wear_parts(one, case.duty, case.tune, strength, job.catalogue.load_laws)
    return Origin(
        "Rate of wear",
        f"{number(wear.rate, 4)} for each {_one(UNITS_OF_BASIS[case.duty.basis])}",
        "For each cause, its share of the wear times how hard the duty is on it, over what the tune leaves "
        "of the life. 1 is the reference duty on a standard tune.",
        _sources(
            f"shares: {one.life_source}" if one.life_source else "",
            f"duty: {case.duty.source}",
            f"tune: {case.tune.source}",
        ),
        parts=tuple(_cause(case, part, strength) for part in causes if part.share),
        adds="sum",
        exact=wear.rate,
    )


def _cause(case: Case, part: WearPart, strength: float) -> Origin:
    grade = f", its grade {number(strength, 3)} times as strong" if strength != 1.0 else ""
    return Origin(
        DRIVERS[part.driver],
        number(part.rate, 4),
        f"share {number(part.share)} {TIMES} severity {number(part.severity)} of {case.duty.name.lower()}"
        f" / factor {number(part.factor, 3)} of {case.tune.name.lower()}{grade}",
        exact=part.rate,
    )


def _life(job: Job, wear: Wear, one: Component) -> Origin:
    basis = job.case.duty.basis
    unit = UNITS_OF_BASIS[basis]
    life, quantile = one.lives[basis], job.catalogue.life_quantile[basis]
    eta = Origin(
        "Characteristic life, eta",
        estimate_in_words(wear.eta, unit),
        f"life / ({MINUS}ln(1 {MINUS} {quantile:g}))^(1/beta): the age by which 63 in 100 have failed",
    )
    shape = Origin(
        "Shape, beta",
        number(wear.shape, 3),
        "above 1 it wears out, the higher the more suddenly" if wear.shape > 1 else "it does not wear out",
        "the catalogue",
    )
    return Origin(
        "Life",
        amount_in_words(wear.life, unit),
        f"By then {round(100 * quantile)} in 100 sets have failed or are past their limits. In the catalogue "
        f"between {amount_in_words(life.low, unit)} and {amount_in_words(life.high, unit)}.",
        _sources(one.source_on(basis), f"confidence {one.life_confidence}" if one.life_confidence else ""),
        parts=(eta, shape),
    )


def _evidence(job: Job, wear: Wear, one: Component) -> Origin:
    seen = job.catalogue.teardowns_seen
    own = "1 strip-down of our own" if seen == 1 else f"{seen or 'no'} strip-downs of our own"
    return Origin(
        "Evidence, r0",
        f"worth {number(wear.evidence, 3)} failures",
        f"How much the life is trusted: the fewer, the wider the band. Behind all lives together stand "
        f"{own}.",
        "the catalogue; from memory"
        if wear.evidence == one.evidence_r0
        else one.source_on(job.case.duty.basis),
    )


def _stopping(job: Job, wear: Wear, one: Component) -> Origin:
    checks = job.case.request.checks
    return Origin(
        "Share that stops the engine, s",
        number(wear.stopping, 3),
        f"Of its failures {number(one.stopping_share, 3)} come without warning. {CHECKS[checks]}",
        "the catalogue; from memory",
    )


def left(job: Job, code: str) -> Origin:
    """How far it runs until its planned life is reached."""
    wear, one = job.wears[code], job.catalogue.components[code]
    unit, use_left = UNITS_OF_BASIS[job.case.duty.basis], wear.use_left()
    after = (wear.age + wear.rate * job.use) / wear.life
    runs_out = math.isfinite(use_left)
    to_go = max(0.0, wear.life - wear.age)
    parts = (
        Origin("Its life, less its age", estimate_in_words(to_go, unit), exact=to_go),
        Origin("Over the rate of wear", f"1 / {number(wear.rate, 4)}", exact=1.0 / (wear.rate or 1.0)),
    )
    return Origin(
        "Left of its planned life",
        estimate_in_words(use_left, unit) if runs_out else "no end",
        f"(life {MINUS} age) / rate. At the end of it {used_in_words(after)} is used.",
        "judged by its life" if one.judged_by == "life" else "judged when it is seen, not by its life",
        parts if runs_out else (),
        "product" if runs_out else "",
        use_left if runs_out else None,
    )


def _one(unit: str) -> str:
    return {"mi": "mile", "h": "hour"}.get(unit, unit)


def _sources(*told: str) -> str:
    return "; ".join(each for each in told if each)
