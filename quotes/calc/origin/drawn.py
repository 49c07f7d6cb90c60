"""Figures of the pictures' tables opened: life used, and engines in 100 by what stops them."""

from __future__ import annotations

import math

from catalogue.calc.said import say
from quotes.calc.origin.age import age
from quotes.calc.origin.life import left
from quotes.calc.origin.rate import service_wear
from quotes.calc.origin.values import MINUS, Origin, hazard, number, parts_in_words
from quotes.calc.origin.worked import LeftAlone, WorkedWay
from quotes.calc.sheet.chance_values import OWN_HANDS
from quotes.calc.sheet.measures import in_planned_unit
from quotes.calc.sheet.name_words import plain_name
from quotes.calc.sheet.words import (
    estimate_in_words,
    first_large,
    risk_in_words,
    used_in_words,
    whole_percent,
)


def life_used(told: WorkedWay, code: str) -> Origin:
    """Life used before the service and by its end, as shares of the planned life."""
    job = told.first
    wear, name = job.wears[code], told.catalogue.components[code].name
    began, worn = wear.age / wear.life, wear.rate * job.use / wear.life
    shares = {"before": used_in_words(began), "by_then": used_in_words(began + worn)}
    value = say("{before} before, {by_then} by the end of the planned service", **shares)
    if len(told.jobs) > 1:
        value = say("{before} before, {by_then} by its first opening", **shares)
    return Origin(
        say("Life used: {part}", part=plain_name(name)),
        value,
        say(
            "Service used, over the planned life; past 100 % its planned life is over, which is no failure "
            "yet."
        ),
        parts=(
            Origin(say("Before"), used_in_words(began), parts=(age(job, code),), exact=began),
            Origin(say("By this service"), used_in_words(worn), parts=(service_wear(job, code),), exact=worn),
        ),
        adds="sum",
        exact=began + worn,
        key=f"life_used:{code}",
    )


def stops(told: WorkedWay, code: str) -> Origin:
    """Engines in 100 that one cause stops: those stopped in all, shared out by hazard."""
    drive = told.driven.drive
    faults = told.driven.faults_in_all * told.shop.assembly_fault_chance
    own = faults if code == OWN_HANDS else drive.hazards[code]
    whole = math.fsum(drive.hazards.values()) + faults
    stopped = 100.0 * (1.0 - told.driven.chance)
    share = own / whole if whole else 0.0
    name = say("our own hands") if code == OWN_HANDS else plain_name(told.catalogue.components[code].name)
    return Origin(
        say("Stopped by {cause}", cause=name),
        risk_in_words(stopped * share),
        say("Engines stopped in all, shared out by hazard. Rounded to whole engines on the sheet."),
        parts=(
            _stopped(told, stopped),
            Origin(
                say("Its share of the hazard"),
                whole_percent(share),
                say(
                    "{hazard}, shop factor counted, of {whole} in all.",
                    hazard=hazard(own),
                    whole=number(whole, 5),
                ),
                exact=share,
                key="chance" if code == OWN_HANDS else f"component:{code}",
            ),
        ),
        adds="product",
        exact=stopped * share,
        key=f"stops:{code}",
    )


def others(told: WorkedWay, codes: str) -> Origin:
    """Engines in 100 stopped by all causes but those that are named, by a comma between their codes."""
    named = [stops(told, code) for code in codes.split(",") if code]
    stopped = 100.0 * (1.0 - told.driven.chance)
    rest = stopped - math.fsum(float(each.exact or 0.0) for each in named)
    less = tuple(
        Origin(each.title, f"{MINUS}{each.value}", exact=-float(each.exact or 0.0), key=each.key)
        for each in named
    )
    return Origin(
        say("Stopped by all else together"),
        risk_in_words(max(0.0, rest)),
        say(
            "Engines stopped in all, less those by the causes that are named. Rounded to whole engines on "
            "the sheet."
        ),
        parts=(_stopped(told, stopped), *less),
        adds="sum",
        exact=rest,
        key=f"others:{codes}",
    )


def _stopped(told: WorkedWay, stopped: float) -> Origin:
    return Origin(
        say("Stopped in all, of 100 engines"),
        risk_in_words(stopped),
        say("100, less those that finish."),
        exact=stopped,
        key="chance",
    )


def falls_due(told: LeftAlone) -> Origin:
    """What runs out of its planned life before the planned service ends, the first one first."""
    parts = tuple(
        Origin(
            first_large(plain_name(due.name)),
            say("is due now")
            if not due.amount
            else say("in {amount}", amount=estimate_in_words(due.amount, due.unit)),
            parts=(left(told.first, due.component),),
            key=f"component:{due.component}",
        )
        for due in told.column.falls_due
    )
    use = estimate_in_words(in_planned_unit(told.case, told.case.use), told.unit)
    return Origin(
        say("Falls due"),
        parts_in_words(len(parts)) if parts else say("nothing"),
        say("Every component whose planned life runs out within {use}, or has already.", use=use),
        parts=parts,
        key="falls_due",
    )
