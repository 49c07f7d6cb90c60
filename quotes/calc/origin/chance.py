"""The chance of finishing, of the whole or of one service, and that of a locked wheel, down to hazards."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from catalogue.calc.said import say, say_count, say_figure, to_say
from quotes.calc.life.course import AS_PLANNED
from quotes.calc.life.draws import DUTY_SIGMA, HIGH, LOW, PARTS_PER_SEASON, SEASONS
from quotes.calc.life.horizon import rider_wears
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.values import Origin, hazard, number
from quotes.calc.origin.worked import WorkedWay
from quotes.calc.sheet.base_values import Likely
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.sheet.words import chance_in_words, percent_band, risk_in_words, whole_percent

NAMED = 10
"""How many components are named; the rest are added up and listed beneath."""


SPARED = to_say(
    "The hazards of the parts that can do it, times the shop factor, added up; the chance is one less e to "
    "the minus their sum. Faults of our own and the spread of seasons stay out."
)


@dataclass(frozen=True, slots=True)
class ServiceRun:
    """What is run through: its hazards with the shop factor left out, and what a season as planned gives."""

    hazards: Mapping[str, float]
    as_planned: float
    faults: int
    """Assembly operations that bear on it, each with its chance of a fault."""
    prefix: str = ""
    """Before the key of a component."""


def chance(told: WorkedWay) -> Origin:
    """The chance that the engine does not stop the planned service."""
    shown = told.shown.chance
    mean = told.driven.chance
    as_planned = told.driven.drive.course.means(AS_PLANNED)[-1]
    run = ServiceRun(told.hazards, as_planned, told.driven.faults_in_all)
    likely = Likely(value=mean, low=shown.low, high=shown.high)
    return finishing(told, say("Chance of finishing the planned service"), "chance", likely, run)


def of_service(told: WorkedWay, job: WorkedJob) -> Origin:
    """The chance of running through one service between openings, for an engine that has reached it."""
    drive = told.driven.drive
    service = drive.services[job.number - 1]
    means = (1.0, *drive.course.means(AS_PLANNED))
    hazards = {code: in_service(told, job, code) for code in told.hazards}
    run = ServiceRun(
        hazards, means[service.stop] / means[service.start], job.faults, f"service:{job.number}:"
    )
    title = say("Chance of running through service {number}", number=job.number)
    return finishing(told, title, job.service_key("chance"), drive.service(job.number - 1), run)


def in_service(told: WorkedWay, job: WorkedJob, code: str) -> float:
    """What a component adds to the hazard of one service, shop factor left out."""
    drive = told.driven.drive
    service = drive.services[job.number - 1]
    rows = (drive.course.hazards(each) for each in drive.course.articles if each.code == code)
    amount = math.fsum(float(row[service.start : service.stop].sum()) for row in rows)
    return amount / (told.shop.shop_factor or 1.0)


def finishing(told: WorkedWay, title: str, key: str, likely: Likely, run: ServiceRun) -> Origin:
    """A chance of finishing, down to the hazards of a run."""
    mean = likely.value
    parts = (
        *_by_component(told, run),
        _season(math.log(run.as_planned / mean)),
        _band(likely),
    )
    return Origin(
        title=title,
        value=f"{chance_in_words(mean)}, {whole_percent(mean)}",
        rule=say(
            "Hazards add up, part by part and service by service. The chance is e to the minus their sum: a "
            "hazard of {example} leaves 95 in 100. Here they come to {sum}.",
            example=say_figure(0.05, 2),
            sum=say_figure(-math.log(mean), 4),
        ),
        parts=parts,
        adds="hazard",
        exact=mean,
        key=key,
    )


def _band(likely: Likely) -> Origin:
    return Origin(
        say("The band"),
        percent_band(likely.low, likely.high),
        say(
            "{draws} draws of how good each part is and how hard the season: {count} in 10 of them lie "
            "between these two.",
            draws=say_figure(SEASONS * PARTS_PER_SEASON, 0),
            count=round(10 * (HIGH - LOW)),
        ),
    )


def _season(amount: float) -> Origin:
    return Origin(
        say("The season itself"),
        hazard(amount),
        say(
            "A season turns out harder or easier than planned (lognormal, sigma {sigma}, from memory). The "
            "chance shown is the mean over {count} seasons, each as likely as the other; this is what it "
            "differs by from a season just as hard as planned.",
            sigma=plain_figure(DUTY_SIGMA),
            count=SEASONS,
        ),
        exact=amount,
    )


def _by_component(told: WorkedWay, run: ServiceRun) -> list[Origin]:
    """Hazards by component, the largest first, then the shop factor and our own faults.

    The factor works inside the logarithm of each, so what it adds is what is left of a season as planned.
    """
    hazards, factor = run.hazards, told.shop.shop_factor
    ranked = sorted(hazards, key=lambda code: (-hazards[code], code))
    found = [_of_component(told, run, code) for code in ranked[:NAMED]]
    rest = [_of_component(told, run, code) for code in ranked[NAMED:]]
    together = math.fsum(float(part.exact or 0.0) for part in rest)
    if rest:
        found.append(
            Origin(
                say_count("{count} other component", "{count} other components", len(rest)),
                hazard(together),
                parts=tuple(rest),
                adds="sum",
                exact=together,
            )
        )
    faults = _faults(told, run.faults)
    scaled = -math.log(run.as_planned) - float(faults.exact or 0.0) - math.fsum(hazards.values())
    return [*found, _shop_factor(factor, 0.0 if factor == 1.0 else scaled), faults]


def _of_component(told: WorkedWay, run: ServiceRun, code: str) -> Origin:
    """One component's share; it opens by itself under its key."""
    amount, name = run.hazards[code], told.catalogue.components[code].name
    return Origin(name, hazard(amount), exact=amount, key=f"{run.prefix}component:{code}")


def _shop_factor(factor: float, more: float) -> Origin:
    said = number(factor, 3)
    rule = say(
        "The owner's factor for the workshop's own record is {factor}, which changes nothing.", factor=said
    )
    if factor != 1.0:
        rule = say(
            "The owner's factor for the workshop's own record is {factor}, which scales every hazard above.",
            factor=said,
        )
    return Origin(
        say("Shop factor {factor}", factor=said),
        hazard(more),
        rule,
        say("the workshop's settings"),
        exact=more,
    )


def _faults(told: WorkedWay, count: int) -> Origin:
    each = told.shop.assembly_fault_chance
    return Origin(
        say("Our own hands: faults in assembly"),
        hazard(count * each),
        say(
            "{count} assembly operations, each with a hazard of {each}.",
            count=count,
            each=plain_figure(float(f"{each:g}")),
        ),
        say("the workshop's settings; from memory"),
        exact=count * each,
    )


def wheel_lock(told: WorkedWay) -> Origin:
    """The chance that a part which can lock the wheel or oil the tyre stops the engine, where it is worst."""
    held = told.driven.drive.held
    worst = told.jobs[max(range(len(held)), key=lambda number: held[number])]
    rule = say(SPARED)
    if len(held) > 1:
        rule = say(
            "In service {number}, the worst between openings: the hazards of the parts that can do it, times "
            "the shop factor, added up; the chance is one less e to the minus their sum. Faults of our own "
            "and the spread of seasons stay out.",
            number=worst.number,
        )
    return _locked(told, worst, rule, "wheel_lock", told.shown.wheel_lock.value)


def locks_in_service(told: WorkedWay, job: WorkedJob) -> Origin:
    """The same of one service."""
    value = told.driven.drive.wheel_locks[job.number - 1]
    return _locked(told, job, say(SPARED), job.service_key("wheel_lock"), value)


def _locked(told: WorkedWay, job: WorkedJob, rule: str, key: str, value: float) -> Origin:
    parts = tuple(_riders(told, job))
    if job.number > 1:
        rule = say("{rule} What stays is counted as known to have run so far.", rule=rule)
    spared = math.exp(-math.fsum(float(part.exact or 0.0) for part in parts))
    return Origin(
        say("Locked rear wheel, or oil on the tyre"),
        say(
            "{risk}; ceiling {ceiling}",
            risk=risk_in_words(100 * value),
            ceiling=whole_percent(told.shop.rider_safety_ceiling),
        ),
        rule,
        say("ceiling: the workshop's settings"),
        parts=(
            Origin(
                say("Chance to be spared"), whole_percent(spared), parts=parts, adds="hazard", exact=spared
            ),
        ),
        exact=value,
        key=key,
    )


def _riders(told: WorkedWay, job: WorkedJob) -> Iterator[Origin]:
    """Their hazards in one service, the largest first."""
    riders = rider_wears(job.wears, told.catalogue)
    amounts = {code: told.shop.shop_factor * wear.stopping_hazard(job.use) for code, wear in riders.items()}
    for code in sorted(amounts, key=lambda code: (-amounts[code], code)):
        part = f"component:{code}"
        yield Origin(
            told.catalogue.components[code].name,
            hazard(amounts[code]),
            exact=amounts[code],
            key=job.service_key(part) if len(told.jobs) > 1 else part,
        )
