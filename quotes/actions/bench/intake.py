"""Taking an engine in from the door: who brings it, which engine it is, and what it has run."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import cast
from uuid import UUID

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.bench.jobs import Intake, receive
from quotes.actions.customers import CustomerDetails, create_customer
from quotes.actions.engines import create_engine, update_engine
from quotes.actions.refused import Refused
from quotes.calc.ask.request import Delivered, EngineAsked, Segment, Unit
from quotes.calc.bench.said import exact
from quotes.calc.bench.stated import EarlierService, backwards, run_since
from quotes.models import Booking, Customer, Engine, Enquiry, Job, Quote
from quotes.queries.bench.intake import earlier_service
from quotes.queries.engines import engine_asked


class RunsBackwards(Refused):
    """Less is stated than was known: asked about, and kept where it is said once more."""

    def __init__(self, given: Intake, earlier: EarlierService) -> None:
        self.earlier = earlier
        super().__init__(
            say(
                "{stated} {unit} is less than {known} {known_unit} {where}. Look at the meter and "
                "ask again, or tick that it stays as it is said.",
                stated=exact(given.service_amount or ZERO),
                unit=given.service_unit,
                known=exact(earlier.amount),
                known_unit=earlier.unit,
                where=earlier.where,
            )
        )


class NotOnRecord(Refused):
    """What is stated can't be put on the engine's record."""


@dataclass(frozen=True, slots=True)
class NewEngine:
    """An engine that is not in our books yet."""

    type_code: str
    number: str = ""


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the desk says about the stated service."""

    backwards_is_said: bool = False
    to_record: bool = False
    """Put what was run since on the engine's record, from which quotes are worked out."""


@transaction.atomic
def take_in(
    *,
    customer: Customer | CustomerDetails,
    engine: Engine | NewEngine,
    given: Intake,
    key: UUID,
    by: User,
    now: datetime,
    booking: Booking | None = None,
    quote: Quote | None = None,
    wishes: Wishes | None = None,
) -> Job:
    """Receive an engine, known or new; the same key again gives the job that stands.

    RunsBackwards, NotOnRecord, NotTied, or ValidationError by field.
    """
    if standing := Job.objects.filter(key=key).first():
        return standing
    wishes = wishes or Wishes()
    owner = customer if isinstance(customer, Customer) else create_customer(details=customer, now=now)
    row = engine if isinstance(engine, Engine) else _new(owner, engine, given)
    note = _refuse_backwards(row, given, wishes)
    if wishes.to_record:
        put_on_record(engine=row, given=given, on=timezone.localdate(now))
    if booking is not None:
        _name_engine(booking, row)
    return receive(
        engine=row,
        customer=owner,
        given=given,
        key=key,
        by=by,
        now=now,
        booking=booking,
        quote=quote,
        note=note,
    )


def _name_engine(booking: Booking, engine: Engine) -> None:
    """The enquiry behind a booking was about an engine not known yet: this is it, and can be quoted."""
    asked = Enquiry.objects.select_for_update().get(pk=booking.enquiry_id)
    if asked.engine_id is None and asked.customer_id == engine.customer_id:
        asked.engine = engine
        asked.save(update_fields=["engine"])


def _new(owner: Customer, engine: NewEngine, given: Intake) -> Engine:
    asked = EngineAsked(type=engine.type_code, delivered=cast(Delivered, given.delivered))
    return create_engine(customer=owner, number=engine.number, asked=asked)


def _refuse_backwards(engine: Engine, given: Intake, wishes: Wishes) -> str:
    """The note that says so, where less is stated than was known and the desk keeps it."""
    if given.service_amount is None or not given.service_unit:
        return ""
    earlier = backwards(given.service_amount, given.service_unit, earlier_service(engine))
    if earlier is None:
        return ""
    if not wishes.backwards_is_said:
        raise RunsBackwards(given, earlier)
    return say(
        "Stated as {stated} {unit}, though {known} {known_unit} stand {where}.",
        stated=exact(given.service_amount),
        unit=given.service_unit,
        known=exact(earlier.amount),
        known_unit=earlier.unit,
        where=earlier.where,
    )


@transaction.atomic
def put_on_record(*, engine: Engine, given: Intake, on: date) -> Engine:
    """Write what was run since the last stretch on the engine's record, with the duty stated. NotOnRecord."""
    asked = engine_asked(engine)
    if given.service_amount is None or not given.duty:
        raise NotOnRecord(
            say("Nothing goes on the engine's record without an amount and the use it was run in.")
        )
    since = run_since(given.service_amount, given.service_unit, asked.history)
    if since is None:
        raise NotOnRecord(
            say(
                "What was run since can't be told from the stretches on the engine's record: they are in "
                "another unit, or come to more. Change the record on the engine's own page."
            )
        )
    if not since:
        return engine
    before = asked.history or ()
    until = before[-1].end if before else None
    stretch = Segment(
        amount=since,
        unit=cast(Unit, given.service_unit),
        duty=given.duty,
        tier=asked.fitted or (before[-1].tier if before else "refresh"),
        start=until if until and until <= on else None,
        end=on,
    )
    longer = asked.model_copy(update={"history": (*before, stretch)})
    return update_engine(engine=engine, number=engine.number, asked=longer, expected_version=engine.version)
