"""The wear of a service opened: its use, and the rate at which the duty and the tune wear, cause by cause."""

from __future__ import annotations

from catalogue.calc.said import say, say_inside, to_say
from quotes.calc.life.units import UNITS_OF_BASIS
from quotes.calc.life.wear import WearPart, load_strength, wear_parts
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.values import TIMES, Origin, number
from quotes.calc.scope.case import Case
from quotes.calc.sheet.words import amount_in_words, estimate_in_words

DRIVERS = {
    "inertia": to_say("inertia: weight that is thrown about"),
    "gas": to_say("gas load: pressure on the piston"),
    "heat": to_say("heat"),
    "shifts": to_say("shifts"),
    "launches": to_say("launches"),
    "dirt": to_say("dirt"),
    "time": to_say("time, on the shelf as well"),
}


def service_wear(job: WorkedJob, code: str) -> Origin:
    """What the service wears of the part's reference life."""
    wear, unit = job.wears[code], UNITS_OF_BASIS[job.case.duty.basis]
    worn = wear.rate * job.use
    return Origin(
        say("Wear of the service"),
        say("{amount} of its reference life", amount=estimate_in_words(worn, unit)),
        say("{amount} {times} rate of wear", amount=amount_in_words(job.use, unit), times=TIMES),
        parts=(Origin(say("Use"), amount_in_words(job.use, unit), exact=job.use), _rate(job, code)),
        adds="product",
        exact=worn,
    )


def _rate(job: WorkedJob, code: str) -> Origin:
    """How fast this duty and tune wear it, cause by cause."""
    case, wear, one = job.case, job.wears[code], job.catalogue.components[code]
    strength = load_strength(job.catalogue, code, job.grade(code))
    causes = wear_parts(one, case.duty, case.tune, strength, job.catalogue.load_laws)
    return Origin(
        say("Rate of wear"),
        _for_each(UNITS_OF_BASIS[case.duty.basis], number(wear.rate, 4)),
        say(
            "For each cause, its share of the wear times how hard the duty is on it, over what the tune "
            "leaves of the life. 1 is the reference duty on a standard tune."
        ),
        sources(
            say("shares: {source}", source=one.life_source) if one.life_source else "",
            say("duty: {source}", source=case.duty.source),
            say("tune: {source}", source=case.tune.source),
        ),
        parts=tuple(_cause(case, part, strength) for part in causes if part.share),
        adds="sum",
        exact=wear.rate,
    )


def _cause(case: Case, part: WearPart, strength: float) -> Origin:
    rule = say(
        "share {share} {times} severity {severity} of {duty} / factor {factor} of {tune}",
        share=number(part.share),
        times=TIMES,
        severity=number(part.severity),
        duty=say_inside(case.duty.name),
        factor=number(part.factor, 3),
        tune=say_inside(case.tune.name),
    )
    if strength != 1.0:
        rule = say("{rule}, its grade {count} times as strong", rule=rule, count=number(strength, 3))
    return Origin(
        say(DRIVERS[part.driver]),
        number(part.rate, 4),
        rule,
        exact=part.rate,
    )


def _for_each(unit: str, rate: str) -> str:
    if unit == "mi":
        return say("{rate} for each mile", rate=rate)
    if unit == "h":
        return say("{rate} for each hour", rate=rate)
    return say("{rate} for each {unit}", rate=rate, unit=unit)


def sources(*told: str) -> str:
    return "; ".join(each for each in told if each)
