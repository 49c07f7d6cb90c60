"""The jobs in hand, in the order in which they were promised, and the bench hours that they take."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from quotes.calc.dates.slots import Bench, Promise, hours_a_day, hours_before_room, lay_out
from quotes.models import Acceptance, Booking, Workshop

OF_BOOKING = ("number", "tier_name", "hours", "slot_week", "booked_at", "enquiry__needed_on")
OF_ENQUIRY = ("enquiry__customer__name", "enquiry__engine__number", "enquiry__engine__type_code")
OF_YES = (
    *("hours", "tier_name", "accepted_at", "quote__number", "quote__customer__name"),
    *("quote__engine__number", "quote__engine__type_code"),
)
"""What is read of a booking, of who has booked, and of an accepted quote: the rest is not said of a job."""


@dataclass(frozen=True, slots=True)
class JobInHand:
    """One job that bench hours are promised to: a booking, or an accepted quote that is not done yet."""

    promise: Promise
    promised_at: datetime
    number: str
    customer: str
    engine: str
    what: str
    booking_pk: int | None = None
    quote_pk: int | None = None


def jobs_in_hand() -> tuple[JobInHand, ...]:
    """Every job in hand, first promised first. Takes three queries however many there are."""
    in_hand = Acceptance.objects.in_hand()
    answered = Booking.objects.standing().filter(enquiry__quote__in=in_hand.order_by().values("quote"))
    answered = answered.select_related("enquiry").only(*OF_BOOKING, "enquiry__quote")
    booking_of = {booking.enquiry.quote_id: booking for booking in answered}
    accepted = in_hand.select_related("quote__customer", "quote__engine").only(*OF_YES)
    booked = Booking.objects.in_hand().select_related("enquiry__customer", "enquiry__engine")
    jobs = [_booked_job(booking) for booking in booked.only(*OF_BOOKING, *OF_ENQUIRY)]
    jobs += [_accepted_job(row, booking_of.get(row.quote_id)) for row in accepted]
    return tuple(sorted(jobs, key=lambda job: (job.promised_at, job.number)))


def _booked_job(booking: Booking) -> JobInHand:
    enquiry = booking.enquiry
    return JobInHand(
        promise=Promise(booking.hours, booking.slot_week, enquiry.needed_on),
        promised_at=booking.booked_at,
        number=booking.number,
        customer=enquiry.customer.name,
        engine=str(enquiry.engine or ""),
        what=booking.tier_name,
        booking_pk=booking.pk,
    )


def _accepted_job(acceptance: Acceptance, booking: Booking | None) -> JobInHand:
    """The hours of the yes; a booking that led to it keeps its week and its place in the queue."""
    quote = acceptance.quote
    week = booking.slot_week if booking else None
    needed_on = booking.enquiry.needed_on if booking else None
    return JobInHand(
        promise=Promise(acceptance.hours, week, needed_on),
        promised_at=booking.booked_at if booking else acceptance.accepted_at,
        number=quote.title,
        customer=quote.customer.name,
        engine=str(quote.engine),
        what=acceptance.tier_name,
        booking_pk=booking.pk if booking else None,
        quote_pk=quote.pk,
    )


def hours_in_hand(
    on: date, workshop: Workshop, closed_days: Collection[date], jobs: Iterable[JobInHand] | None = None
) -> Decimal:
    """Bench hours that come before a new job: what is promised up to the first week that has room.

    A week promised far ahead does not delay a job that is done before it. `jobs`: where they have been read.
    """
    return hours_before_room(bench_of(on, workshop, closed_days, jobs_in_hand() if jobs is None else jobs))


def bench_of(on: date, workshop: Workshop, closed_days: Collection[date], jobs: Iterable[JobInHand]) -> Bench:
    """The weeks from a day on, at the hours a week that can be promised, with these jobs laid into them."""
    a_day = hours_a_day(workshop.sellable_hours_a_week)
    return lay_out(on, a_day, closed_days, [job.promise for job in jobs])
