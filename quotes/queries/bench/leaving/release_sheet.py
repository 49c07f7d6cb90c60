"""The release of a job as the value that is stored: note and card are drawn from it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Any

from django.utils import timezone

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.calc.ask.request import Unit
from quotes.calc.bench.ages.next_due import NextDue
from quotes.calc.bench.leaving.release_sheet import DeclinedLine, DueLine, ReleaseSheet
from quotes.calc.life.units import WORDS
from quotes.calc.sheet.unit_words import plain_figure
from quotes.models import AssemblyRecord, Engine, FinalCheck, Job, Workshop
from quotes.queries.bench.again.declined import declined_of
from quotes.queries.bench.ages.after import due_of, recorded_now, with_after
from quotes.queries.bench.jobs import build_of, catalogue_of
from quotes.queries.bench.leaving.way_out import Money, answers_of, card_of
from quotes.queries.bench.read_by import read_by_customer
from quotes.queries.books.day import money_of
from quotes.queries.people import name_of
from quotes.queries.sheets import customer_party, workshop_party

MOST_DUE = 10
"""So many of what falls due stand on the note; the customer's page has them all."""


@read_by_customer
def release_sheet(
    job: Job, check: FinalCheck, record: AssemblyRecord, money: Money, on: date, **given: Any
) -> ReleaseSheet:
    """What is handed over, from the rows as they stand; call it when the ages have begun anew.

    `given` says to whom, under which seal and by whom. LookupError where the engine type is gone.
    """
    catalogue, build = catalogue_of(job), build_of(job)
    engine = with_after(Engine.objects.filter(pk=job.engine_id)).get()
    due = due_of(engine, on, catalogue)
    names = {code: part.name for code, part in catalogue.components.items()}
    return ReleaseSheet(
        **_head(job, on),
        engine_name=catalogue.engine_type.name,
        engine_number=engine.number,
        build=f"{build.tier_name}, {build.quote.title}" if build else "",
        open_sum=money.open_sum,
        hours_quoted=money.hours_quoted,
        hours_clocked=money.hours_clocked,
        service=service_in_words(engine),
        **_signed(check, record),
        checks=answers_of(check),
        renewed=_named(check, "new", names),
        reconditioned=_named(check, "done", names),
        declined=tuple(_declined(job)),
        dues=tuple(_due(one) for one in due.dues[:MOST_DUE]),
        due_unknown=due.unknown,
        card=card_of(check, catalogue, _duty(job, engine)),
        **given,
    )


def _head(job: Job, on: date) -> dict[str, Any]:
    workshop = Workshop.objects.get_or_default()
    coins = money_of(on, workshop)
    return {
        "job": job.number,
        "workshop": workshop_party(workshop),
        "customer": customer_party(job.customer),
        "paper": str(workshop.paper),
        "language": job.customer.reads,
        "currency": coins.currency,
        "decimals": coins.decimals,
        "on": on,
    }


def _signed(check: FinalCheck, record: AssemblyRecord) -> dict[str, Any]:
    """Who closed the record and who took the last look, and when."""
    return {
        "record_closed_on": timezone.localdate(record.closed_at),
        "record_closed_by": name_of(record.closed_by),
        "checked_on": timezone.localdate(check.at),
        "checked_by": name_of(check.by),
    }


def _named(check: FinalCheck, level: str, names: dict[str, str]) -> tuple[str, ...]:
    return tuple(names.get(code, code) for code in check.done if check.asked.get(code) == level)


def _declined(job: Job) -> Iterator[DeclinedLine]:
    """What bears on the rider's safety stands first."""
    for one in sorted(declined_of(job), key=lambda one: not one.rider_safety):
        yield DeclinedLine(
            words=one.words,
            risk=one.risk,
            said_by=one.said_by,
            how=say(one.how),
            on=one.on,
            rider_safety=one.rider_safety,
        )


def _due(one: NextDue) -> DueLine:
    return DueLine(
        name=one.name,
        act=one.act,
        amount=round_half_up(Decimal(str(one.amount)), 0),
        unit=one.unit,
        on=one.on,
        before_event=one.before_event,
    )


def _duty(job: Job, engine: Engine) -> str:
    history = recorded_now(engine).history
    return history[-1].duty if history else job.duty


def service_in_words(engine: Engine) -> str:
    """What the engine has run by its record, such as 4,100 miles and 12 hours; empty where nobody knows."""
    asked = recorded_now(engine)
    totals: dict[Unit, Decimal] = {}
    for stretch in asked.history or ():
        totals[stretch.unit] = totals.get(stretch.unit, Decimal(0)) + stretch.amount
    return say(" and ").join(f"{plain_figure(amount)} {say(WORDS[unit])}" for unit, amount in totals.items())
