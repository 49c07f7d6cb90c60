"""Enquiries as values: what was asked, what was said, and what is said today."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from quotes.calc.band import SpokenRule
from quotes.calc.enquiry_card import Said, what_is_said
from quotes.calc.request import Request
from quotes.calc.sheet import Comparison
from quotes.models import BookingTerms, Enquiry, Workshop
from quotes.queries.bench import diary


def asked_of(enquiry: Enquiry) -> Request:
    """The request as it was taken down."""
    return Request.model_validate(enquiry.request)


def said_of(enquiry: Enquiry) -> Said:
    """The bands and weeks as they were spoken."""
    return Said.model_validate(enquiry.said)


def booking_terms() -> BookingTerms:
    """The owner's terms for bookings, or an unsaved row with the defaults."""
    return BookingTerms.objects.first() or BookingTerms()


def spoken_rule() -> SpokenRule:
    """How the workshop says a price on the phone."""
    workshop = Workshop.objects.get_or_default()
    return SpokenRule(
        under_pct=workshop.spoken_below_pct,
        over_pct=workshop.spoken_above_pct,
        round_to=booking_terms().spoken_round_to,
    )


def said_today(comparison: Comparison, on: date, *, needed_on: date | None, budget: Decimal | None) -> Said:
    """What the workshop would say about a comparison on that day, with the jobs it has in hand."""
    return what_is_said(comparison, diary(on), spoken_rule(), needed_on=needed_on, budget=budget)
