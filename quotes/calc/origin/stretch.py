"""One stretch of an engine's past opened: what it ran or stood, and the life that it took."""

from __future__ import annotations

from catalogue.calc.said import say, say_inside
from quotes.calc.ask.request import Segment, Unit
from quotes.calc.life.stretches import Stretch
from quotes.calc.life.units import UNITS_OF_BASIS
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.values import TIMES, Origin, number, on_day
from quotes.calc.sheet.words import amount_in_words, used_in_words


def stretch_ran(job: WorkedJob, stretch: Stretch) -> Origin:
    """What it wore: by use and the rate of its duty and tune, or standing still."""
    unit = UNITS_OF_BASIS[stretch.duty.basis]
    value = say("{share} of its life", share=used_in_words(stretch.share))
    if stretch.segment is None:
        return Origin(
            _dated(say("Standing still"), stretch),
            value,
            say(
                "The calendar wears {worn} of a life of {life}.",
                worn=amount_in_words(round(stretch.worn, 1), unit),
                life=amount_in_words(stretch.life, unit),
            ),
            say("a year of standing: common practice, no source"),
            exact=stretch.share,
        )
    return Origin(
        _dated(_ran(job, stretch, stretch.segment), stretch),
        value,
        _wears(stretch, unit),
        f"{stretch.duty.source}" if stretch.duty.source else "",
        exact=stretch.share,
    )


def _dated(what: str, stretch: Stretch) -> str:
    if not (stretch.start and stretch.end):
        return what
    return say("{what}, {start} to {end}", what=what, start=on_day(stretch.start), end=on_day(stretch.end))


def _ran(job: WorkedJob, stretch: Stretch, segment: Segment) -> str:
    said = say(
        "{amount} of {duty}, built as {tune}",
        amount=amount_in_words(segment.amount, segment.unit),
        duty=say_inside(stretch.duty.name),
        tune=say_inside(job.catalogue.tiers[segment.tier].name),
    )
    if stretch.fraction == 1.0:
        return said
    return say("{ran}, {share} of it since its renewal", ran=said, share=used_in_words(stretch.fraction))


def _wears(stretch: Stretch, unit: Unit) -> str:
    """The use times its rate, and what the calendar adds."""
    told = {
        "use": amount_in_words(round(stretch.use, 1), unit),
        "times": TIMES,
        "rate": number(stretch.rate, 4),
        "worn": amount_in_words(round(stretch.worn, 1), unit),
        "life": amount_in_words(stretch.life, unit),
    }
    shelf = stretch.worn - stretch.use * stretch.rate
    if shelf <= 0:
        return say("{use} {times} rate {rate} = {worn} of a life of {life}", **told)
    told["shelf"] = amount_in_words(round(shelf, 1), unit)
    return say("{use} {times} rate {rate} + {shelf} by the calendar = {worn} of a life of {life}", **told)
