"""A component's age opened: what the clock counts, what was measured, and what this option makes of it."""

from __future__ import annotations

from catalogue.calc.said import say, to_say
from quotes.calc.bench.said import exact
from quotes.calc.life.clock import READING_WEIGHT, UNKNOWN_SHARE, Used, clocked, wear_share
from quotes.calc.life.wear import age_of_peak_hazard
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.stretch import stretch_ran
from quotes.calc.origin.values import TIMES, Origin, number
from quotes.calc.sheet.wording import carried_in_words
from quotes.calc.sheet.words import amount_in_words, used_in_words

BEGINS = to_say("Age when the service begins")
AS_IT_CAME = to_say("As it came")


def age(job: WorkedJob, code: str) -> Origin:
    """The share of its life that a component has used when the service begins."""
    fate = job.fates.get(code)
    if fate == "renewed":
        why = job.brought_by(("new", code))
        came = _as_it_came(job, code, AS_IT_CAME)
        rule = say("Renewed. {why}", why=why).strip()
        return Origin(say(BEGINS), say("new"), rule, parts=(came,), exact=0.0)
    if fate == "reconditioned":
        return _reconditioned(job, code)
    levels, came = job.case.levels[code], _as_it_came(job, code)
    if not levels.beyond_known:
        return came
    counted = levels.left.age / levels.left.life
    peak = age_of_peak_hazard(levels.left.eta, levels.left.shape, levels.left.evidence)
    return Origin(
        say(BEGINS),
        say("counted as {share} of its life", share=used_in_words(counted)),
        say(
            "So far past its life that nothing is known: held at {count} lives.",
            count=number(peak / levels.left.life),
        ),
        parts=(came,),
    )


def _reconditioned(job: WorkedJob, code: str) -> Origin:
    back = job.catalogue.components[code].recondition
    gives = back.life_share if back else 0.0
    wear = job.wears[code]
    share = wear.age / wear.life
    return Origin(
        say(BEGINS),
        say("{share} of its life used", share=used_in_words(share)),
        say("Put right by machine work, which gives back {share} of a life.", share=used_in_words(gives)),
        say("the catalogue"),
        parts=(_as_it_came(job, code, AS_IT_CAME),),
    )


def _as_it_came(job: WorkedJob, code: str, title: str = BEGINS) -> Origin:
    if job.before is not None:
        return _as_it_ran(job, job.before, code, title)
    used = job.case.used[code]
    clock = _clock(job, code)
    if not used.measured:
        return Origin(
            say(title),
            say("{share} of its life used", share=used_in_words(used.share)),
            _how_known(job, code, used),
            parts=(clock,) if clock else (),
            adds="sum" if clock else "",
            exact=used.share,
        )
    measured = _measured(job, code)
    if used.clock_share is None or clock is None:
        return Origin(
            say(title),
            say("measured: {share} used", share=used_in_words(used.share)),
            say("Its age is not known, so the reading alone counts."),
            parts=(measured,),
            adds="sum",
            exact=used.share,
        )
    return _both(title, used, clock, measured)


def _as_it_ran(job: WorkedJob, before: WorkedJob, code: str, title: str) -> Origin:
    """At an opening: its age when the service before began, and what that service wore."""
    wear = before.wears[code]
    began, worn = wear.age / wear.life, wear.rate * before.use / wear.life
    return Origin(
        say(title),
        say("{share} of its life used", share=used_in_words(began + worn)),
        say("As the service before left it."),
        parts=(
            Origin(
                say("When service {number} began", number=before.number),
                used_in_words(began),
                exact=began,
                key=before.service_key(f"component:{code}"),
            ),
            Origin(say("Worn in service {number}", number=before.number), used_in_words(worn), exact=worn),
        ),
        adds="sum",
        exact=job.case.used[code].share,
    )


def _both(title: str, used: Used, clock: Origin, measured: Origin) -> Origin:
    """A reading and the clock, one weighed against the other."""
    reading, clocked_share = used.measured_share or 0.0, used.clock_share or 0.0
    counted = say(
        "clock says {clock}, measured {reading}: counted as {share}",
        clock=used_in_words(clocked_share),
        reading=used_in_words(reading),
        share=used_in_words(used.share),
    )
    if reading > 1.0:
        rule = say("Past its limit the reading counts whole, or half way to the clock where that is worse.")
        return Origin(say(title), counted, rule, parts=(clock, measured), exact=used.share)
    return Origin(
        say(title),
        counted,
        say("A reading within its limits and the clock are weighed one against the other."),
        parts=(
            _weighed(say("The clock"), clock, clocked_share, 1.0 - READING_WEIGHT),
            _weighed(say("The reading"), measured, reading, READING_WEIGHT),
        ),
        adds="sum",
        exact=used.share,
    )


def _weighed(title: str, part: Origin, share: float, weight: float) -> Origin:
    return Origin(
        title,
        used_in_words(share * weight),
        f"{used_in_words(share)} {TIMES} {number(weight)}",
        say("weight from memory"),
        parts=(part,),
        exact=share * weight,
    )


def _how_known(job: WorkedJob, code: str, used: Used) -> str:
    engine, renewal = job.case.request.engine, job.case.request.engine.renewed.get(code)
    if not used.known:
        return say(
            "Its age is not known: counted {share} used until it is measured.",
            share=used_in_words(UNKNOWN_SHARE),
        )
    if carried := engine.carried.get(code):
        return carried_in_words(job.catalogue.components[code].name, carried)
    if renewal is not None and renewal.at:
        at = amount_in_words(renewal.at, renewal.unit)
        return say("By the clock, since it was renewed at {amount}.", amount=at)
    return say("By the clock: what the engine has run, each stretch on the duty and the tune of its day.")


def _clock(job: WorkedJob, code: str) -> Origin | None:
    found = clocked(job.catalogue.components[code], job.case.request, job.catalogue)
    if found is None:
        return None
    share = sum(each.share for each in found)
    return Origin(
        say("The clock"),
        used_in_words(share),
        say("Shares of life add up, whatever the order (linear damage: Palmgren 1924, Miner 1945)."),
        parts=tuple(stretch_ran(job, each) for each in found),
        adds="sum",
        exact=share,
    )


def _measured(job: WorkedJob, code: str) -> Origin:
    """The worst reading within its limits, with the others beneath it."""
    readings = [each for each in job.case.request.readings if each.component == code]
    readings.sort(key=lambda each: -wear_share(each))
    shares = [
        Origin(
            f"{each.quantity}{f', {each.place}' if each.place else ''}: {exact(each.value)} {each.unit}",
            used_in_words(wear_share(each)),
            say(
                "from {standard} as new to a limit of {limit} {unit}",
                standard=exact(each.standard),
                limit=exact(each.limit),
                unit=each.unit,
            ),
            each.limit_source,
        )
        for each in readings
    ]
    worst = wear_share(readings[0])
    return Origin(
        say("Measured"),
        used_in_words(worst),
        say("The worst of its readings counts."),
        parts=tuple(shares),
        exact=worst,
    )
