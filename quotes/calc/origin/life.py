"""One component opened: its age, its rate of wear by cause, its life and evidence, and its hazard."""

from __future__ import annotations

import math

from catalogue.calc.engine import Component
from quotes.calc.life.stretches import grade_in
from quotes.calc.life.units import UNITS_OF_BASIS
from quotes.calc.life.wear import Wear, WearPart, load_strength, wear_parts
from quotes.calc.origin.age import age
from quotes.calc.origin.values import MINUS, TIMES, Origin, hazard, number
from quotes.calc.origin.worked import Explained
from quotes.calc.scope.case import Case
from quotes.calc.sheet.words import amount_in_words, estimate_in_words, risk_in_words, used_in_words

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


def component(told: Explained, code: str) -> Origin:
    """What a component does to the chance, down to where each figure was taken from."""
    name = told.catalogue.components[code].name
    amount = told.hazards[code]
    alone = risk_in_words(100 * -math.expm1(-told.shop.shop_factor * amount))
    parts = _first(told, code) if len(told.steps) == 1 else _by_service(told, code)
    return Origin(
        f"{name[:1].upper()}{name[1:]}",
        f"{alone} stopped by it alone; {hazard(amount)}",
        "How likely a part of this age is to stop the engine over this service, its life known no better "
        "than the evidence allows.",
        parts=parts,
        adds="sum" if len(told.steps) > 1 else "",
        exact=amount,
        key=f"component:{code}",
    )


def _by_service(told: Explained, code: str) -> tuple[Origin, ...]:
    """Its hazard in each service between openings; how it comes about is told of the first."""
    unit, drive = UNITS_OF_BASIS[told.case.duty.basis], told.driven.drive
    articles = [each for each in drive.course.articles if each.code == code]
    rows = [drive.course.hazards(each) / (told.shop.shop_factor or 1.0) for each in articles]
    found = []
    for place, (step, stretches) in enumerate(zip(told.steps, drive.services, strict=True)):
        amount = math.fsum(float(row[stretches.start : stretches.stop].sum()) for row in rows)
        plan = step.scope.plan
        fate = "new" if code in plan.new else "put right" if code in plan.reconditioned else "as it is"
        found.append(
            Origin(
                f"Service {place + 1}, {estimate_in_words(step.use, unit)}, {fate}",
                hazard(amount),
                parts=() if place else _first(told, code),
                exact=amount,
            )
        )
    return tuple(found)


def _first(told: Explained, code: str) -> tuple[Origin, ...]:
    """Age, wear, life and evidence of the article that the first service begins with."""
    wear, one = told.measures.wears[code], told.catalogue.components[code]
    use = told.steps[0].use
    return (
        age(told, code),
        _service(told, code, wear, one, use),
        _life(told, wear, one),
        _evidence(told, wear, one),
        _stopping(told, wear, one),
        _hazard(wear, use),
        _left(told, wear, one, use),
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


def _service(told: Explained, code: str, wear: Wear, one: Component, use: float) -> Origin:
    """What the service wears of the part's reference life."""
    unit = UNITS_OF_BASIS[told.case.duty.basis]
    worn = wear.rate * use
    return Origin(
        "Wear of the service",
        f"{estimate_in_words(worn, unit)} of its reference life",
        f"{amount_in_words(use, unit)} {TIMES} rate of wear",
        parts=(Origin("Use", amount_in_words(use, unit), exact=use), _rate(told, code, wear, one)),
        adds="product",
        exact=worn,
    )


def _rate(told: Explained, code: str, wear: Wear, one: Component) -> Origin:
    """How fast this duty and tune wear it, cause by cause."""
    case = told.case
    tune = case.tune if told.measures.fitted[code].article == "new" else case.fitted
    strength = load_strength(told.catalogue, code, grade_in(tune, code))
    causes = wear_parts(one, case.duty, case.tune, strength, told.catalogue.load_laws)
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


def _life(told: Explained, wear: Wear, one: Component) -> Origin:
    basis = told.case.duty.basis
    unit = UNITS_OF_BASIS[basis]
    life, quantile = one.lives[basis], told.catalogue.life_quantile[basis]
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


def _evidence(told: Explained, wear: Wear, one: Component) -> Origin:
    seen = told.catalogue.teardowns_seen
    own = "1 strip-down of our own" if seen == 1 else f"{seen or 'no'} strip-downs of our own"
    return Origin(
        "Evidence, r0",
        f"worth {number(wear.evidence, 3)} failures",
        f"How much the life is trusted: the fewer, the wider the band. Behind all lives together stand "
        f"{own}.",
        "the catalogue; from memory"
        if wear.evidence == one.evidence_r0
        else one.source_on(told.case.duty.basis),
    )


def _stopping(told: Explained, wear: Wear, one: Component) -> Origin:
    checks = told.case.request.checks
    return Origin(
        "Share that stops the engine, s",
        number(wear.stopping, 3),
        f"Of its failures {number(one.stopping_share, 3)} come without warning. {CHECKS[checks]}",
        "the catalogue; from memory",
    )


def _left(told: Explained, wear: Wear, one: Component, use: float) -> Origin:
    unit = UNITS_OF_BASIS[told.case.duty.basis]
    after = (wear.age + wear.rate * use) / wear.life
    left = wear.use_left()
    return Origin(
        "Left of its planned life",
        estimate_in_words(left, unit) if math.isfinite(left) else "no end",
        f"(life {MINUS} age) / rate. At the end of it {used_in_words(after)} is used.",
        "judged by its life" if one.judged_by == "life" else "judged when it is seen, not by its life",
    )


def _one(unit: str) -> str:
    return {"mi": "mile", "h": "hour"}.get(unit, unit)


def _sources(*told: str) -> str:
    return "; ".join(each for each in told if each)
