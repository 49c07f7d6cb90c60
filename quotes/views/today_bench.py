"""The day sheet's sentences about engines that are here: what they wait for, and which have left."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime

from quotes.models import Job
from quotes.queries.bench.jobs import state_in_list
from quotes.views.today_items import Item, Types, engine_words

FOR_DESK = {
    "received": ("Take the leave to strip", "job-leave"),
    "declined": ("Write down what becomes of the engine", "job-declined"),
    "declined, goes in boxes": ("Give it back in boxes", "job-sent-back"),
    "declined, to be scrapped": ("Scrap it", "job-sent-back"),
    "called off": ("Give it back, its build was called off", "job-sent-back"),
    "paid": ("Hand it over, it is paid", "job"),
}
"""State to what the desk does about it, and on which page."""
FOR_BUILDER = {
    "authorised for teardown": "Strip it, leave was given",
    "stripped and measured": "Issue the findings",
    "approved": "Begin the assembly",
    "assembling": "Go on with the assembly",
    "testing": "Go on with the tests",
    "declined, to be put back": "Put it back as it was",
}
WAITS = frozenset({"on hold", "extra work waiting", "waiting for parts", "waiting for machine work"})


def for_desk(jobs: Iterable[Job], types: Types) -> list[Item]:
    """What the desk has to do about engines that are here."""
    return [_item(job, types, "Desk", *FOR_DESK[state]) for job, state in _here(jobs) if state in FOR_DESK]


def for_builder(jobs: Iterable[Job], types: Types) -> list[Item]:
    """What the bench has to do."""
    return [
        _item(job, types, "Bench", FOR_BUILDER[state], "job")
        for job, state in _here(jobs)
        if state in FOR_BUILDER
    ]


def waiting(jobs: Iterable[Job], types: Types) -> list[Item]:
    """Engines that wait for others, each with what for."""
    return [
        _item(job, types, "Others", f"{state}: {job.hold_because}" if job.hold_because else state, "job")
        for job, state in _here(jobs)
        if state in WAITS
    ]


def left(jobs: Iterable[Job], types: Types) -> list[Item]:
    """Engines that have left since the week began that a day sheet looks back on."""
    return [
        _item(job, types, f"{job.left_at:%A}", f"Left: {job.customer}", "job", job.left_at)
        for job in jobs
        if job.left_at is not None
    ]


def _here(jobs: Iterable[Job]) -> Iterator[tuple[Job, str]]:
    return ((job, state_in_list(job)) for job in jobs if job.left_at is None)


def _item(job: Job, types: Types, who: str, what: str, page: str, since: datetime | None = None) -> Item:
    name, number = engine_words(job.engine, types)
    words = what if what.startswith("Left") else f"{what[:1].upper()}{what[1:]}: {job.number}, tag {job.tag}"
    return Item(who, words, page, job.pk, (name, number), since=since or job.received_at)
