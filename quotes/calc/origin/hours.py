"""Bench hours opened: the operations that make them, what each is made of, and what brought it in."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.engine import KindOfWork, Operation
from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.money.lines import WORK_IN_WORDS
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.values import TIMES, Origin, hours


def all_hours(job: WorkedJob) -> Origin:
    """All bench hours of a job, by kind of work."""
    kinds = [kind for kind in WORK_IN_WORDS if any(each.kind == kind for each in _operations(job))]
    whole = sum((each.hours for each in _operations(job)), ZERO)
    return Origin(
        say("Bench hours"),
        hours(whole),
        say(
            "The operations of the job are a set: strip-down that several parts need is counted once. Bench "
            "hours of one competent builder, parts in hand."
        ),
        parts=tuple(of_kind(job, kind) for kind in kinds),
        adds="sum",
        exact=whole,
        key=job.key("hours"),
    )


def of_kind(job: WorkedJob, kind: KindOfWork) -> Origin:
    """The operations of one kind of work."""
    found = [each for each in _operations(job) if each.kind == kind]
    whole = sum((each.hours for each in found), ZERO)
    return Origin(
        say(WORK_IN_WORDS[kind]),
        hours(whole),
        parts=tuple(operation(job, each) for each in found),
        adds="sum",
        exact=whole,
        key=job.key(f"work:{kind}"),
    )


def operation(job: WorkedJob, one: Operation) -> Origin:
    """One operation: fixed hours, hours by the piece, and what it is there for."""
    fixed = one.hours if one.fixed_hours is None else one.fixed_hours
    by_piece = one.hours_per_piece * one.pieces
    parts = [Origin(say("Fixed"), hours(fixed), exact=fixed)]
    if one.hours_per_piece:
        parts.append(_by_piece(one, by_piece))
    return Origin(
        one.name[:1].upper() + one.name[1:],
        hours(one.hours),
        job.brought_by(("work", one.code)),
        one.source,
        parts=tuple(parts) if one.hours_per_piece else (),
        adds="sum" if one.hours_per_piece else "",
        exact=one.hours,
        key=job.key(f"operation:{one.code}"),
    )


def _by_piece(one: Operation, by_piece: Decimal) -> Origin:
    piece = one.piece.replace("_", " ")
    return Origin(
        say("For each {piece}", piece=piece),
        hours(by_piece),
        f"{hours(one.hours_per_piece)} {TIMES} {one.pieces}",
        exact=by_piece,
    )


def _operations(job: WorkedJob) -> list[Operation]:
    return [job.catalogue.operations[code] for code in job.operations]
