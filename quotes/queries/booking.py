"""Bookings as values: the confirmation, and the deposits and terms that stand behind it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Literal, cast

from django.utils import timezone, translation

from catalogue.calc.said import say, say_figure
from quotes.calc.dates.slots import Slot
from quotes.calc.intake.booking_sheet import BookingSheet, BookingState, default_deposit, storage_sentences
from quotes.calc.money.band import SUBJECT_TO, spoken_band
from quotes.calc.sheet.values import Comparison, Option
from quotes.models import Booking, SlotDeposit, Workshop
from quotes.queries.enquiry import booking_terms, spoken_rule
from quotes.queries.sheets import customer_party, lines, terms_of, workshop_party
from quotes.queries.starting_words import starting_words
from quotes.queries.workshop import currency_decimals


def slot_deposit(type_code: str) -> Decimal:
    """What holds a week for an engine of this type, in the workshop's currency."""
    return slot_deposits([type_code])[type_code]


@dataclass(frozen=True, slots=True)
class StandingTerms:
    """What a customer agrees to when a week is booked today."""

    terms: tuple[str, ...]
    storage: tuple[str, ...]
    storage_free_days: int
    storage_a_day: Decimal
    bring: tuple[str, ...]
    kept_inside_days: int


def standing_terms() -> StandingTerms:
    """The workshop's terms, its storage terms and what to bring."""
    workshop, terms = Workshop.objects.get_or_default(), booking_terms()
    a_day = say_figure(terms.storage_a_day, currency_decimals(workshop.currency))
    return StandingTerms(
        terms=terms_of(workshop),
        storage=storage_sentences(
            terms.storage_free_days,
            f"{a_day} {workshop.currency}" if terms.storage_a_day else "",
            starting_words(terms.storage),
        ),
        storage_free_days=terms.storage_free_days,
        storage_a_day=terms.storage_a_day,
        bring=lines(starting_words(terms.bring)),
        kept_inside_days=terms.kept_inside_days,
    )


def slot_deposits(types: Iterable[str]) -> dict[str, Decimal]:
    """The slot deposit of each of these engine types."""
    kept = dict(SlotDeposit.objects.values_list("type_code", "amount"))
    return {code: kept.get(code, default_deposit(code)) for code in types}


def booking_sheet(booking: Booking, comparison: Comparison, option: Option, slot: Slot) -> BookingSheet:
    """The confirmation of a booking that is about to be kept, in the customer's language."""
    with translation.override(booking.enquiry.customer.reads):
        return _sheet(booking, comparison, option, slot)


def _sheet(booking: Booking, comparison: Comparison, option: Option, slot: Slot) -> BookingSheet:
    workshop, standing = Workshop.objects.get_or_default(), standing_terms()
    enquiry = booking.enquiry
    return BookingSheet(
        number=booking.number,
        made_on=timezone.localdate(booking.booked_at),
        workshop=workshop_party(workshop),
        customer=customer_party(enquiry.customer),
        engine_name=comparison.engine_type_name,
        engine_number=enquiry.engine.number if enquiry.engine else "",
        slot_week=slot.start,
        arrive_by=slot.arrive_by,
        ready_on=slot.ready_on,
        needed_on=enquiry.needed_on,
        kept_inside_days=standing.kept_inside_days,
        storage=standing.storage,
        storage_free_days=standing.storage_free_days,
        storage_a_day=standing.storage_a_day,
        bring=standing.bring,
        terms=standing.terms,
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=enquiry.customer.reads,
        **_build(comparison, option),
        **_agreed(booking),
    )


def _build(comparison: Comparison, option: Option) -> dict[str, Any]:
    """What is built, and the band that was said for it."""
    band = spoken_band(option.gross, spoken_rule())
    return {
        "tier_name": option.name,
        "hours": option.hours,
        "currency": comparison.currency,
        "decimals": comparison.decimals,
        "low": band.low,
        "high": band.high,
        "subject_to": "" if comparison.firm else say(SUBJECT_TO),
    }


def _agreed(booking: Booking) -> dict[str, Any]:
    """What this customer and the desk agreed on."""
    return {
        "delivered": booking.get_delivered_display(),
        "deposit": booking.deposit,
        "authority": booking.get_authority_display(),
        "authority_name": booking.authority_name,
        "said_how": booking.get_said_how_display(),
        "limit_sum": booking.limit_sum,
        "old_parts": booking.get_old_parts_display(),
    }


def sheet_of_booking(booking: Booking) -> BookingSheet:
    """The confirmation as it was given."""
    return BookingSheet.model_validate(booking.sheet)


def state_of(booking: Booking) -> BookingState:
    """What has happened to it since."""
    cancelled = booking.cancelled_at
    return BookingState(
        agreed_on=booking.terms_agreed_on,
        agreed_by=booking.terms_agreed_by,
        cancelled_on=timezone.localdate(cancelled) if cancelled else None,
        cancelled_because=booking.cancelled_because,
    )
