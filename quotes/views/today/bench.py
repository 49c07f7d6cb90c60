"""The day sheet's sentences about engines that are here: what they wait for, and which have left."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime

from catalogue.calc.said import say, to_say
from quotes.calc.said_days import said_weekday
from quotes.documents.words import first_large
from quotes.models import Job
from quotes.queries.bench.states import state_by_facts
from quotes.views.today.item import BENCH, DESK, OTHERS, Item, Types, engine_words

FOR_DESK = {
    "received": (to_say("Take the leave to strip"), "job-leave"),
    "declined": (to_say("Write down what becomes of the engine"), "job-declined"),
    "declined, goes in boxes": (to_say("Give it back in boxes"), "job-sent-back"),
    "declined, to be scrapped": (to_say("Scrap it"), "job-sent-back"),
    "called off": (to_say("Give it back, its build was called off"), "job-sent-back"),
    "paid": (to_say("Hand it over, it is paid"), "job"),
}
"""State to what the desk does about it, and on which page."""
FOR_BUILDER = {
    "authorised for teardown": to_say("Strip it, leave was given"),
    "stripped and measured": to_say("Issue the findings"),
    "approved": to_say("Begin the assembly"),
    "assembling": to_say("Go on with the assembly"),
    "testing": to_say("Go on with the tests"),
    "declined, to be put back": to_say("Put it back as it was"),
}
WAITS = frozenset({"on hold", "extra work waiting", "waiting for parts", "waiting for machine work"})


def for_desk(jobs: Iterable[Job], types: Types) -> list[Item]:
    """What the desk has to do about engines that are here."""
    return [_here_item(job, types, DESK, *FOR_DESK[state]) for job, state in _here(jobs) if state in FOR_DESK]


def for_builder(jobs: Iterable[Job], types: Types) -> list[Item]:
    """What the bench has to do."""
    return [
        _here_item(job, types, BENCH, FOR_BUILDER[state], "job")
        for job, state in _here(jobs)
        if state in FOR_BUILDER
    ]


def waiting(jobs: Iterable[Job], types: Types) -> list[Item]:
    """Engines that wait for others, each with what for."""
    return [
        _here_item(job, types, OTHERS, state, "job", job.hold_because)
        for job, state in _here(jobs)
        if state in WAITS
    ]


def left(jobs: Iterable[Job], types: Types) -> list[Item]:
    """Engines that have left, each with the day."""
    return [
        _item(
            job,
            types,
            said_weekday(job.left_at),
            say("Left: {customer}", customer=job.customer),
            "job",
            job.left_at,
        )
        for job in jobs
        if job.left_at is not None
    ]


def _here(jobs: Iterable[Job]) -> Iterator[tuple[Job, str]]:
    return ((job, state_by_facts(job)) for job in jobs)


def _here_item(job: Job, types: Types, who: str, what: str, page: str, because: str = "") -> Item:
    """What is done with an engine that is here, or what it waits for."""
    said = first_large(say(what))
    if because:
        said = say("{what}: {because}", what=said, because=because)
    words = say("{what}: {number}, tag {tag}", what=said, number=job.number, tag=job.tag)
    return _item(job, types, say(who), words, page, job.received_at)


def _item(job: Job, types: Types, who: str, what: str, page: str, since: datetime) -> Item:
    return Item(who, what, page, job.pk, engine_words(job.engine, types), since=since)
