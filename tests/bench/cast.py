"""Engines that came in, and how far their jobs have come. All invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

from quotes.actions.bench.jobs import Intake, move, receive
from quotes.models import Acceptance, Customer, Engine, Job, Quote, Workshop
from tests.books.cast import build, vat_shop
from tests.cast import desk, owner
from tests.quotes import cast
from tests.quotes.cast import NOW, ON

__all__ = ["LATER", "NOW", "ON", "built_job", "given", "job", "stripped_job"]

LATER = NOW + timedelta(days=3)


def given(**change: Any) -> Intake:
    """A 600 four, loose, complete but for its dipstick, 4,100 miles from a logbook."""
    whole = Intake(
        brought_by="Marel Otten",
        right_to_hand_over="owner of the engine",
        shelf="B3",
        marks=(("Engine number", "H4-20417"), ("Left case half", "L 117"), ("Right case half", "R 117")),
        came_with=("Carburettors", "Clutch cable"),
        missing="Dipstick",
        oil_seen="Dark, no metal to be seen",
        symptoms="Jumps out of fourth",
        duty="sprint",
        service_amount=Decimal(4100),
        service_unit="mi",
        service_known="logbook",
    )
    return replace(whole, **change)


def job(*, quote: Quote | None = None, engine: Engine | None = None, **change: Any) -> Job:
    """A job just received: for the quote's engine, for this one, or for one of that number."""
    if not Workshop.objects.exists():
        vat_shop()
    if quote is not None:
        engine = quote.engine
    if engine is None:
        owner_of = Customer.objects.filter(name="Marel Otten").first() or cast.customer()
        number = change.pop("number", "H4-20417")
        engine = Engine.objects.filter(number=number).first() or cast.engine(owner_of, number)
    now = change.pop("now", NOW)
    return receive(
        engine=engine,
        customer=engine.customer,
        given=given(**change),
        key=uuid4(),
        by=desk(),
        now=now,
        quote=quote,
    )


def built_job(of: Acceptance | None = None, **change: Any) -> Job:
    """A job whose quote was said yes to (tests.books.cast.build); its build is `job.quote.acceptance`."""
    of = of or build(**change)
    return job(quote=of.quote)


def stripped_job(of: Job | None = None) -> Job:
    """A job that is stripped, by the owner's word."""
    of = of or built_job()
    move(job=of, step="stripped", by=owner(), now=NOW, note="The customer stood beside it")
    return of
