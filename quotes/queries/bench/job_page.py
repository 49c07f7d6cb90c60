"""What a job's own page shows beside the lines of each area."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from catalogue.calc.said import say
from quotes.calc.bench.state import Facts
from quotes.calc.intake.given_customers import engine_key
from quotes.models import FindingSeen, Job, Measured, Quote, ReadWhen, Step
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.people import name_of


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step as it is read: what, when, by whom, and what was said with it."""

    words: str
    at: datetime
    by: str
    note: str


@dataclass(frozen=True, slots=True)
class Next:
    """The next act: a page to open, or a step to make where `step` is named.

    The page is the job's own, or that of its build where `pk` is named.
    """

    words: str
    url_name: str = ""
    step: str = ""
    pk: int = 0
    at: str = ""
    """Where on the page."""


def step_rows(job: Job) -> list[StepRow]:
    """Every step, in order."""
    rows = job.steps.select_related("by").order_by("at", "pk")
    return [StepRow(row.get_step_display(), row.at, name_of(row.by), row.note) for row in rows]


def next_step(job: Job, facts: Facts, lines: Sequence[JobLine] = ()) -> Next | None:
    """What is to be done next by a press or a page; `lines` are what the job's page says of each area.

    None where it is somebody else's turn.
    """
    if job.left_at is not None:
        return None
    if facts.held:
        return Next(say("Take it up again"), step=Step.GOES_ON)
    if facts.outcome or facts.called_off:
        return Next(say("It has left us"), url_name="job-sent-back")
    if facts.said_no:
        return Next(say("Write down what becomes of it"), url_name="job-declined")
    if facts.step == Step.LEAVE_GIVEN and not _looked_at(job):
        return Next(say("Strip it and measure: the teardown sheet"), url_name="teardown")
    if facts.approved and facts.step in (Step.STRIPPED, Step.FINDINGS):
        return _parts_first(lines) or Next(say("Assembly begins"), step=Step.ASSEMBLING)
    if facts.step == Step.FINDINGS and job.quote_id is None:
        return Next(say("Put it under a quote"), url_name="job", at="#quote")
    return _in_order(facts)


def _looked_at(job: Job) -> bool:
    """Whether anything was read or seen yet."""
    return (
        Measured.objects.standing().filter(job=job).exists()
        or FindingSeen.objects.standing().filter(job=job).exists()
    )


def _parts_first(lines: Sequence[JobLine]) -> Next | None:
    """Half a kit starts no build: the pick list comes first while something on it can be ordered."""
    for line in lines:
        if line.url_name == "pick-list" and line.waits:
            return Next(say("Order the parts"), url_name="pick-list", pk=line.args[0])
    return None


def _in_order(facts: Facts) -> Next | None:
    if facts.step == Step.RECEIVED:
        return Next(say("Take the leave to strip"), url_name="job-leave")
    if facts.step == Step.LEAVE_GIVEN:
        return Next(say("It is stripped and measured"), step=Step.STRIPPED)
    if facts.step == Step.STRIPPED:
        return Next(say("Tell the customer what was found"), url_name="findings")
    if facts.step == Step.FINDINGS and not facts.quoted_since:
        return Next(say("Work the quote out again, and issue it"), url_name="findings")
    if facts.step == Step.ASSEMBLING:
        return Next(say("Write the assembly record"), url_name="record")
    if facts.step == Step.TESTING:
        return Next(say("Tests and the last look"), url_name="job-test")
    if facts.step == Step.READY:
        return Next(say("Hand it over"), url_name="job-release")
    return None


def as_received(job: Job) -> list[Measured]:
    """Readings from before anything was undone: compression, leak-down and the like."""
    rows = Measured.objects.standing().filter(job=job, when=ReadWhen.AS_RECEIVED).select_related("instrument")
    return list(rows.order_by("name", "place", "pk"))


def stamped_other(job: Job) -> str:
    """The number that is stamped on the engine, where it is not the one that our books have for it."""
    stamped = next((what for where, what in job.marks if where == "Engine number"), "")
    known = job.engine.number
    return stamped if stamped and known and engine_key("", stamped) != engine_key("", known) else ""


def quotes_to_tie(job: Job) -> list[Quote]:
    """Quotes of the job's engine that no other job has; none where its own was said yes to."""
    if job.left_at is not None or (job.quote is not None and job.quote.accepted_at is not None):
        return []
    rows = Quote.objects.filter(engine=job.engine_id, job=None, closed_at=None).select_related("latest")
    return list(rows.defer("request", "latest__request", "latest__sheet").order_by("-created_at", "-pk"))
