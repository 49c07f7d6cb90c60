"""Taking down the calls of a demo workshop, and booking a week for those that came to it."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from quotes.actions.booking import BookingWish, WeekFull, book
from quotes.actions.enquiry import keep_enquiry
from quotes.calc.ask.request import EngineAsked, Request
from quotes.calc.dates.open_days import monday_of
from quotes.calc.demo.workshop import DemoBooking, DemoEnquiry
from quotes.models import Customer, Engine, Enquiry
from quotes.queries.engines import engine_asked


@transaction.atomic
def write_demo_enquiry(*, given: DemoEnquiry, desk: User, now: datetime) -> None:
    """One call with its booking; one that is there already is left alone."""
    customer = Customer.objects.get(name=given.customer)
    if Enquiry.objects.filter(customer=customer, note=given.note).exists():
        return
    at = now - timedelta(days=given.days_ago)
    on = timezone.localdate(at)
    engine = Engine.objects.with_history().get(number=given.engine) if given.engine else None
    asked = engine_asked(engine) if engine else EngineAsked(type=given.type)
    needed_on = None if given.needed_in_days is None else on + timedelta(days=given.needed_in_days)
    enquiry = keep_enquiry(
        customer=customer,
        engine=engine,
        request=Request(on=on, engine=asked, planned=given.planned),
        needed_on=needed_on,
        budget=given.budget,
        note=given.note,
        by=desk,
        now=at,
    )
    if given.book:
        _book(enquiry, given.book, desk, at)


def _book(enquiry: Enquiry, given: DemoBooking, desk: User, at: datetime) -> None:
    """The week asked for, or the first after it that has room."""
    wish = _wish(given, at)
    try:
        book(enquiry=enquiry, wish=wish, by=desk, now=at)
    except WeekFull as full:
        if full.earliest is None:
            raise
        later = given.model_copy(update={"weeks_ahead": given.weeks_ahead + 1})
        _book(enquiry, later, desk, at)


def _wish(given: DemoBooking, at: datetime) -> BookingWish:
    return BookingWish(
        tier=given.tier,
        week=monday_of(timezone.localdate(at)) + timedelta(weeks=given.weeks_ahead),
        delivered=given.delivered,
        deposit=given.deposit,
        authority="rider",
        authority_name=given.agreed_by,
        said_how="message",
        limit_sum=given.limit_sum,
        old_parts="returned",
        agreed_by=given.agreed_by,
    )
