"""A step of the ladder opened: its price, and its chance by what it changes in the step before."""

from __future__ import annotations

import math
from collections.abc import Iterator

from catalogue.calc.said import say, say_count
from quotes.calc.origin.chance import ServiceRun, finishing
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.life import AS_IT_IS, FATES, story
from quotes.calc.origin.step_price import PricedStep, at_step, job_of_step, more, step_gross
from quotes.calc.origin.values import Origin, hazard, money, number, signed_hazard
from quotes.calc.origin.worked import Explained
from quotes.calc.sheet.base_values import Likely
from quotes.calc.sheet.chance_values import LadderStep
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.sheet.words import chance_in_words, first_large, percent_band, whole_percent


def step(told: Explained, place: int) -> Origin:
    """A whole step: its price, what is more than in the step before, and its chance."""
    found = at_step(told, place)
    return Origin(
        _title(found.shown),
        f"{money(found.shown.gross, told.shop.decimals)}, {whole_percent(found.shown.chance)}",
        say("Each step takes what buys most chance for its money, with everything that it brings."),
        parts=(step_gross(told, place), more(told, place), step_chance(told, place)),
        key=f"step:{place}",
    )


def step_chance(told: Explained, place: int) -> Origin:
    """The chance of a step: of the first from all hazards, of a later one from what changes by it."""
    found = at_step(told, place)
    shown, job, now = found.shown, found.job, _hazards(found.job)
    key, title = f"step:{place}:chance", say("Chance of step {number}", number=place)
    likely = Likely(value=shown.chance, low=shown.low or 0.0, high=shown.high or 1.0)
    if place == 1:
        run = ServiceRun(now, math.exp(-_as_planned(job)), job.faults, f"step:{place}:")
        return finishing(told, title, key, likely, run)
    before = at_step(told, place - 1)
    return Origin(
        title,
        f"{chance_in_words(shown.chance)}, {whole_percent(shown.chance)}",
        say(
            "The hazard of the step before, and what each part that changes takes off it or adds. The chance "
            "is e to the minus their sum; {band} say 8 in 10 estimates.",
            band=percent_band(likely.low, likely.high),
        ),
        parts=(_before(before.shown), *_changes(before.job, job), _rest(before, found)),
        adds="hazard",
        exact=shown.chance,
        key=key,
    )


def in_step(told: Explained, place: int, code: str) -> Origin:
    """A component as a step leaves it. KeyError where it does not count in the hazard."""
    job = job_of_step(told, place)
    amount = _hazards(job)[code]
    fate = FATES.get(job.fates.get(code, ""), AS_IT_IS)
    return Origin(
        say(
            "{part} in step {number}, {fate}",
            part=first_large(told.catalogue.components[code].name),
            number=place,
            fate=say(fate),
        ),
        hazard(amount),
        parts=story(job, code),
        exact=amount,
        key=f"step:{place}:component:{code}",
    )


def _title(shown: LadderStep) -> str:
    names = ", ".join(shown.names) or say("nothing that is not there already")
    return say("Step {number}: {adds}", number=shown.number, adds=names)


def _before(shown: LadderStep) -> Origin:
    amount = -math.log(shown.chance)
    title = say("Step {number}: {chance}", number=shown.number, chance=whole_percent(shown.chance))
    return Origin(title, hazard(amount), exact=amount, key=f"step:{shown.number}:chance")


def _changes(before: WorkedJob, job: WorkedJob) -> Iterator[Origin]:
    """What each component takes off or adds, the largest first, then our own hands."""
    was, now, components = _hazards(before), _hazards(job), job.catalogue.components
    moved = [code for code in now if now[code] != was[code]]
    for code in sorted(moved, key=lambda each: (now[each] - was[each], each)):
        amount = now[code] - was[code]
        fate = say(FATES.get(job.fates.get(code, ""), AS_IT_IS))
        key = f"step:{job.step}:component:{code}"
        yield Origin(components[code].name, signed_hazard(amount), fate, exact=amount, key=key)
    if job.faults != before.faults:
        each = job.shop.assembly_fault_chance
        count = job.faults - before.faults
        yield Origin(
            say("Our own hands: faults in assembly"),
            signed_hazard(count * each),
            say(
                "{operations}, each with a hazard of {each}.",
                operations=say_count("{count} operation more", "{count} operations more", count),
                each=plain_figure(float(f"{each:g}")),
            ),
            exact=count * each,
        )


def _rest(before: PricedStep, found: PricedStep) -> Origin:
    """What the mean over seasons and the shop's factor make of it beyond a season as hard as planned."""
    whole = math.log(before.shown.chance) - math.log(found.shown.chance)
    faults = (found.job.faults - before.job.faults) * found.job.shop.assembly_fault_chance
    was, now = _hazards(before.job), _hazards(found.job)
    amount = whole - faults - math.fsum(now[code] - was[code] for code in now)
    return Origin(
        say("The season itself"),
        signed_hazard(amount),
        say(
            "The chance shown is the mean over seasons harder and easier than planned, each hazard times the "
            "shop factor of {factor}.",
            factor=number(found.job.shop.shop_factor, 3),
        ),
        exact=amount,
    )


def _hazards(job: WorkedJob) -> dict[str, float]:
    """Of every component, shop factor left out."""
    return {code: wear.stopping_hazard(job.use) for code, wear in job.wears.items()}


def _as_planned(job: WorkedJob) -> float:
    """The hazard of a season just as hard as planned, shop factor and faults counted."""
    factor = job.shop.shop_factor
    worn = (
        wear.evidence * math.log1p(factor * wear.stopping * wear.damage(job.use) / wear.prior_scale)
        for wear in job.wears.values()
    )
    return math.fsum(worn) + job.faults * job.shop.assembly_fault_chance
