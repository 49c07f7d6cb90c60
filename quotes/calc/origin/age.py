"""A component's age opened: what the clock counts, what was measured, and what this option makes of it."""

from __future__ import annotations

from quotes.calc.life.clock import READING_WEIGHT, UNKNOWN_SHARE, Used, clocked, wear_share
from quotes.calc.life.stretches import Stretch
from quotes.calc.life.units import UNITS_OF_BASIS
from quotes.calc.life.wear import age_of_peak_hazard
from quotes.calc.origin.job import Job
from quotes.calc.origin.values import TIMES, Origin, number
from quotes.calc.sheet.wording import carried_in_words
from quotes.calc.sheet.words import amount_in_words, used_in_words

BEGINS = "Age when the service begins"


def age(job: Job, code: str) -> Origin:
    """The share of its life that a component has used when the service begins."""
    fate = job.fates.get(code)
    if fate == "renewed":
        why = job.brought_by(("new", code))
        came = _as_it_came(job, code, "As it came")
        return Origin(BEGINS, "new", f"Renewed. {why}".strip(), parts=(came,), exact=0.0)
    if fate == "reconditioned":
        return _reconditioned(job, code)
    levels, came = job.case.levels[code], _as_it_came(job, code)
    if not levels.beyond_known:
        return came
    counted = levels.left.age / levels.left.life
    peak = age_of_peak_hazard(levels.left.eta, levels.left.shape, levels.left.evidence)
    return Origin(
        BEGINS,
        f"counted as {used_in_words(counted)} of its life",
        f"So far past its life that nothing is known: held at {number(peak / levels.left.life)} lives.",
        parts=(came,),
    )


def _reconditioned(job: Job, code: str) -> Origin:
    back = job.catalogue.components[code].recondition
    gives = back.life_share if back else 0.0
    wear = job.wears[code]
    share = wear.age / wear.life
    return Origin(
        BEGINS,
        f"{used_in_words(share)} of its life used",
        f"Put right by machine work, which gives back {used_in_words(gives)} of a life.",
        "the catalogue",
        parts=(_as_it_came(job, code, "As it came"),),
    )


def _as_it_came(job: Job, code: str, title: str = BEGINS) -> Origin:
    if job.before is not None:
        return _as_it_ran(job, job.before, code, title)
    used = job.case.used[code]
    clock = _clock(job, code)
    if not used.measured:
        return Origin(
            title,
            f"{used_in_words(used.share)} of its life used",
            _how_known(job, code, used),
            parts=(clock,) if clock else (),
            adds="sum" if clock else "",
            exact=used.share,
        )
    measured = _measured(job, code)
    if used.clock_share is None or clock is None:
        return Origin(
            title,
            f"measured: {used_in_words(used.share)} used",
            "Its age is not known, so the reading alone counts.",
            parts=(measured,),
            adds="sum",
            exact=used.share,
        )
    return _both(title, used, clock, measured)


def _as_it_ran(job: Job, before: Job, code: str, title: str) -> Origin:
    """At an opening: its age when the service before began, and what that service wore."""
    wear = before.wears[code]
    began, worn = wear.age / wear.life, wear.rate * before.use / wear.life
    return Origin(
        title,
        f"{used_in_words(began + worn)} of its life used",
        "As the service before left it.",
        parts=(
            Origin(
                f"When service {before.number} began",
                used_in_words(began),
                exact=began,
                key=before.service_key(f"component:{code}"),
            ),
            Origin(f"Worn in service {before.number}", used_in_words(worn), exact=worn),
        ),
        adds="sum",
        exact=job.case.used[code].share,
    )


def _both(title: str, used: Used, clock: Origin, measured: Origin) -> Origin:
    """A reading and the clock, one weighed against the other."""
    reading, clocked_share = used.measured_share or 0.0, used.clock_share or 0.0
    said = f"clock says {used_in_words(clocked_share)}, measured {used_in_words(reading)}"
    counted = f"{said}: counted as {used_in_words(used.share)}"
    if reading > 1.0:
        rule = "Past its limit the reading counts whole, or half way to the clock where that is worse."
        return Origin(title, counted, rule, parts=(clock, measured), exact=used.share)
    return Origin(
        title,
        counted,
        "A reading within its limits and the clock are weighed one against the other.",
        parts=(
            _weighed("The clock", clock, clocked_share, 1.0 - READING_WEIGHT),
            _weighed("The reading", measured, reading, READING_WEIGHT),
        ),
        adds="sum",
        exact=used.share,
    )


def _weighed(title: str, part: Origin, share: float, weight: float) -> Origin:
    return Origin(
        title,
        used_in_words(share * weight),
        f"{used_in_words(share)} {TIMES} {number(weight)}",
        "weight from memory",
        parts=(part,),
        exact=share * weight,
    )


def _how_known(job: Job, code: str, used: Used) -> str:
    engine, renewal = job.case.request.engine, job.case.request.engine.renewed.get(code)
    if not used.known:
        return f"Its age is not known: counted {used_in_words(UNKNOWN_SHARE)} used until it is measured."
    if carried := engine.carried.get(code):
        return carried_in_words(job.catalogue.components[code].name, carried)
    if renewal is not None and renewal.at:
        return f"By the clock, since it was renewed at {amount_in_words(renewal.at, renewal.unit)}."
    return "By the clock: what the engine has run, each stretch on the duty and the tune of its day."


def _clock(job: Job, code: str) -> Origin | None:
    found = clocked(job.catalogue.components[code], job.case.request, job.catalogue)
    if found is None:
        return None
    share = sum(each.share for each in found)
    return Origin(
        "The clock",
        used_in_words(share),
        "Shares of life add up, whatever the order (linear damage: Palmgren 1924, Miner 1945).",
        parts=tuple(_stretch(job, each) for each in found),
        adds="sum",
        exact=share,
    )


def _stretch(job: Job, stretch: Stretch) -> Origin:
    unit = UNITS_OF_BASIS[stretch.duty.basis]
    life = amount_in_words(stretch.life, unit)
    dates = f", {stretch.start:%d %b %Y} to {stretch.end:%d %b %Y}" if stretch.start and stretch.end else ""
    value = f"{used_in_words(stretch.share)} of its life"
    if stretch.segment is None:
        worn = amount_in_words(round(stretch.worn, 1), unit)
        return Origin(
            f"Standing still{dates}",
            value,
            f"The calendar wears {worn} of a life of {life}.",
            "a year of standing: common practice, no source",
            exact=stretch.share,
        )
    tune = job.catalogue.tiers[stretch.segment.tier].name.lower()
    ran = amount_in_words(stretch.segment.amount, stretch.segment.unit)
    part = "" if stretch.fraction == 1.0 else f", {used_in_words(stretch.fraction)} of it since its renewal"
    wears = f"{amount_in_words(round(stretch.use, 1), unit)} {TIMES} rate {number(stretch.rate, 4)}"
    shelf = stretch.worn - stretch.use * stretch.rate
    if shelf > 0:
        wears += f" + {amount_in_words(round(shelf, 1), unit)} by the calendar"
    return Origin(
        f"{ran} of {stretch.duty.name.lower()}, built as {tune}{part}{dates}",
        value,
        f"{wears} = {amount_in_words(round(stretch.worn, 1), unit)} of a life of {life}",
        f"{stretch.duty.source}" if stretch.duty.source else "",
        exact=stretch.share,
    )


def _measured(job: Job, code: str) -> Origin:
    """The worst reading within its limits, with the others beneath it."""
    readings = [each for each in job.case.request.readings if each.component == code]
    readings.sort(key=lambda each: -wear_share(each))
    shares = [
        Origin(
            f"{each.quantity}{f', {each.place}' if each.place else ''}: {each.value:f} {each.unit}",
            used_in_words(wear_share(each)),
            f"from {each.standard:f} as new to a limit of {each.limit:f} {each.unit}",
            each.limit_source,
        )
        for each in readings
    ]
    worst = wear_share(readings[0])
    return Origin(
        "Measured",
        used_in_words(worst),
        "The worst of its readings counts.",
        parts=tuple(shares),
        exact=worst,
    )
