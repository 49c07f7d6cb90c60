"""Enquiries and bookings that tests speak of, made from the hand-made comparison."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from quotes.actions.booking import BookingWish, write_booking
from quotes.actions.enquiry import EnquiryDetails, write_down
from quotes.calc.dates.open_days import monday_of
from quotes.models import Booking, Engine, Enquiry
from quotes.queries.bench_diary import diary
from tests.cast import desk
from tests.quotes import cast
from tests.quotes.cast import NOW
from tests.sample_sheet import sample_comparison

NEXT_WEEK = date(2026, 11, 30)
HOURS = {option.tier: option.hours for option in sample_comparison().options}
WISH = BookingWish(
    tier="refresh",
    week=NEXT_WEEK,
    delivered="loose",
    deposit=Decimal(150),
    authority="rider",
    authority_name="Marel Otten",
    said_how="signature",
    limit_sum=Decimal(200),
    old_parts="kept",
)


def enquiry(of: Engine, *, now: datetime = NOW, request: Any = None, **details: Any) -> Enquiry:
    """A call about an engine, taken down at `now`."""
    asked = request or cast.request()
    told = EnquiryDetails(**details)
    return write_down(of.customer, of, asked, told, sample_comparison(), desk(), now)


def booking(of: Enquiry, *, now: datetime = NOW, **change: Any) -> Booking:
    """A week for an enquiry; by default the first whole week after `now`."""
    week = monday_of(now.date()) + timedelta(weeks=1)
    wish = replace(WISH, **({"week": week} | change))
    return write_booking(of, wish, sample_comparison(), desk(), now)


def many(count: int, *, now: datetime = NOW, booked: bool = False) -> list[Enquiry]:
    """Calls of as many customers, each with an engine and, where asked, a week."""
    made = []
    for number in range(count):
        owner = cast.customer(f"Rider {number}", email=f"rider{number}@yard.example")
        row = enquiry(cast.engine(owner, f"H4-{number}"), now=now)
        if booked:
            week = monday_of(now.date()) + timedelta(weeks=2 + 2 * number)
            booking(row, now=now, week=week)
        made.append(row)
    return made


def fill(start: date, count: int, *, now: datetime = NOW) -> None:
    """Book as many full-power builds, one after the other, into the weeks from `start` on."""
    for row in many(count, now=now):
        weeks = diary(now.date()).bench.weeks
        booking(row, now=now, tier="full", week=next(w.monday for w in weeks if w.free and w.monday >= start))
