"""Writes on bookings: a week on the bench, its terms, and giving it back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.actions.enquiry import locked_enquiry
from quotes.actions.numbers import next_number
from quotes.actions.refused import Refused, RequestFaults
from quotes.actions.saving import save_checked
from quotes.calc.ask.request import Delivered, Request
from quotes.calc.bench_words import hours_in_words
from quotes.calc.dates.slots import Slot, earliest_slot, slot_in_week
from quotes.calc.intake.enquiry_card import slot_lead
from quotes.calc.said_days import said_day
from quotes.calc.sheet.values import Comparison, Option
from quotes.models import Booking, BookingTerms, Enquiry, SlotDeposit
from quotes.queries.bench_diary import diary
from quotes.queries.booking import booking_sheet
from quotes.queries.comparison import faults_of
from quotes.queries.enquiry import asked_of
from quotes.queries.people import name_of
from quotes.queries.sheets import comparison_in

SERIES = "B"


class WeekFull(Refused):
    """The job does not fit into that week. `earliest`: the first one that has room, if any."""

    def __init__(self, week: date, hours: Decimal, free: Decimal, earliest: Slot | None) -> None:
        self.earliest = earliest
        said = say(
            "The week of {week} has {free} bench hours free and the job needs {hours}.",
            week=said_day(week),
            free=hours_in_words(free),
            hours=hours_in_words(hours),
        )
        first = say("No week has room.")
        if earliest:
            first = say("The first week with room is {week}.", week=said_day(earliest.start))
        super().__init__(f"{said} {first}")


class AlreadyBooked(Refused):
    """The enquiry has a week on the bench."""

    def __init__(self, booking: Booking) -> None:
        self.booking = booking
        super().__init__(
            say(
                "{number} holds the week of {week} for this enquiry. Cancel that booking before "
                "you make another.",
                number=booking.number,
                week=said_day(booking.slot_week),
            )
        )


@dataclass(frozen=True, slots=True)
class BookingWish:
    """What the customer and the desk agreed on. Sums are in the workshop's currency, with tax."""

    tier: str
    week: date
    delivered: Delivered
    deposit: Decimal
    authority: str
    authority_name: str
    said_how: str
    limit_sum: Decimal
    old_parts: str
    agreed_by: str = ""
    """Who has agreed to the terms; blank while nobody has."""


def book(*, enquiry: Enquiry, wish: BookingWish, by: User, now: datetime) -> Booking:
    """Keep a week on the bench for an enquiry. The same once more gives the same booking.

    RequestFaults, WeekFull, AlreadyBooked, EnquiryClosed, or ValidationError by field.
    """
    request = booked_request(enquiry, wish.delivered, timezone.localdate(now))
    if found := faults_of(request):
        raise RequestFaults(found)
    return write_booking(enquiry, wish, comparison_in(enquiry.customer.reads, request), by, now)


def booked_request(enquiry: Enquiry, delivered: Delivered, on: date) -> Request:
    """The enquiry's request as it stands on a day, with the engine delivered as it was agreed."""
    asked = asked_of(enquiry)
    engine = asked.engine.model_copy(update={"delivered": delivered})
    return asked.model_copy(update={"on": on, "engine": engine})


@transaction.atomic
def write_booking(
    enquiry: Enquiry, wish: BookingWish, comparison: Comparison, by: User, now: datetime
) -> Booking:
    """Book a week for a comparison that was worked out; `book` comes first."""
    row = locked_enquiry(enquiry)
    if standing := row.bookings.standing().first():
        if _is_same(standing, wish):
            return standing
        raise AlreadyBooked(standing)
    option = _option(comparison, wish.tier)
    on = timezone.localdate(now)
    # The number's counter is locked from here on: two desks can't take the last hours of one week.
    number = next_number(kind=SERIES, year=on.year)
    slot = _slot(wish, option, on)
    booking = Booking(
        number=number,
        enquiry=row,
        tier=option.tier,
        tier_name=option.name,
        hours=round_half_up(option.hours),
        slot_week=slot.start,
        arrive_by=slot.arrive_by,
        booked_by=by,
        booked_at=now,
        **_as_agreed(wish, on),
    )
    booking.sheet = booking_sheet(booking, comparison, option, slot).model_dump(mode="json")
    return save_checked(booking)


def _as_agreed(wish: BookingWish, on: date) -> dict[str, Any]:
    """The fields of a booking that customer and desk agreed on."""
    agreed_by = wish.agreed_by.strip()
    return {
        "delivered": wish.delivered,
        "deposit": wish.deposit,
        "authority": wish.authority,
        "authority_name": wish.authority_name.strip(),
        "said_how": wish.said_how,
        "limit_sum": wish.limit_sum,
        "old_parts": wish.old_parts,
        "terms_agreed_on": on if agreed_by else None,
        "terms_agreed_by": agreed_by,
    }


def _is_same(standing: Booking, wish: BookingWish) -> bool:
    return (standing.tier, standing.slot_week, standing.delivered) == (wish.tier, wish.week, wish.delivered)


def _option(comparison: Comparison, tier: str) -> Option:
    try:
        return comparison.option(tier)
    except KeyError:
        offered = ", ".join(option.name for option in comparison.options)
        raise ValidationError(
            {"tier": say("“{tier}” was not worked out. Choose one of {offered}.", tier=tier, offered=offered)}
        ) from None


def _slot(wish: BookingWish, option: Option, on: date) -> Slot:
    now = diary(on)
    lead = slot_lead(option, now)
    if slot := slot_in_week(now.bench, wish.week, option.hours, lead_days=lead):
        return slot
    free = next((week.free for week in now.bench.weeks if week.monday == wish.week), Decimal(0))
    raise WeekFull(wish.week, option.hours, free, earliest_slot(now.bench, option.hours, lead_days=lead))


@transaction.atomic
def agree_terms(*, booking: Booking, agreed_by: str, on: date) -> Booking:
    """Note who agreed to the terms and on what day; once noted it does not change."""
    row = Booking.objects.select_for_update().get(pk=booking.pk)
    if row.terms_agreed_on is not None:
        return row
    if not agreed_by.strip():
        raise ValidationError({"agreed_by": say("Write the name of who agreed to the terms.")})
    row.terms_agreed_on, row.terms_agreed_by = on, agreed_by.strip()
    return save_checked(row)


@transaction.atomic
def cancel_booking(*, booking: Booking, because: str, by: User, now: datetime) -> Booking:
    """Give the week back; a second press changes nothing."""
    row = Booking.objects.select_for_update().get(pk=booking.pk)
    if row.cancelled_at is not None:
        return row
    if not because.strip():
        raise ValidationError({"because": say("Write why: it decides what becomes of the deposit.")})
    row.cancelled_at, row.cancelled_by = now, name_of(by)
    row.cancelled_because = because.strip()
    return save_checked(row)


@transaction.atomic
def save_booking_terms(*, terms: BookingTerms, deposits: dict[str, Decimal]) -> BookingTerms:
    """Keep the owner's terms for bookings and the slot deposit of each engine type."""
    terms.pk = BookingTerms.ONLY_ID
    terms.full_clean(exclude={"id"})
    terms.save()
    for type_code, amount in deposits.items():
        row = SlotDeposit.objects.filter(type_code=type_code).first() or SlotDeposit(type_code=type_code)
        row.amount = amount
        save_checked(row)
    return terms
