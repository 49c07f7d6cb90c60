"""Enquiries as values: what was asked, what was said, and what is said today."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal, cast

from django.utils import timezone

from catalogue.calc.said import say, say_figure
from quotes.calc.ask.request import Request
from quotes.calc.dates.slots import Bench, Slot, next_slot
from quotes.calc.intake.enquiry_card import Said, what_is_said
from quotes.calc.intake.enquiry_sheet import EnquirySheet
from quotes.calc.money.band import SpokenRule
from quotes.calc.said_days import said_day
from quotes.calc.sheet.values import Comparison
from quotes.models import BookingTerms, Delivered, Enquiry, Workshop
from quotes.queries.bench_diary import diary
from quotes.queries.people import name_of
from quotes.queries.sheets import customer_party, workshop_party


def asked_of(enquiry: Enquiry) -> Request:
    """The request as it was taken down."""
    return Request.model_validate(enquiry.request)


def said_of(enquiry: Enquiry) -> Said:
    """The bands and weeks as they were spoken."""
    return Said.model_validate(enquiry.said)


def booking_terms() -> BookingTerms:
    """The owner's terms for bookings, or an unsaved row with the defaults in the reader's language."""
    kept = BookingTerms.objects.first()
    return kept or BookingTerms(storage=say(BookingTerms.STORAGE), bring=say(BookingTerms.BRING))


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


@dataclass(frozen=True, slots=True)
class WeekToday:
    """When one option of an enquiry could begin, with the bench as it is promised now."""

    name: str
    hours: Decimal
    slot: Slot | None


def weeks_today(said: Said, bench: Bench) -> list[WeekToday]:
    """The earliest week of each option, for the hours that were worked out for the enquiry."""
    return [
        WeekToday(one.name, one.hours, next_slot(bench, one.hours) if one.hours else None)
        for one in said.options
    ]


def enquiry_sheet(enquiry: Enquiry) -> EnquirySheet:
    """The card as it is shown and printed."""
    workshop = Workshop.objects.get_or_default()
    said = said_of(enquiry)
    return EnquirySheet(
        number=enquiry.number,
        kept_on=timezone.localdate(enquiry.kept_at),
        kept_by=name_of(enquiry.kept_by),
        workshop=workshop_party(workshop),
        customer=customer_party(enquiry.customer),
        engine_number=enquiry.engine.number if enquiry.engine else "",
        facts=tuple((label, value) for label, value in _facts(enquiry, said) if value),
        symptoms=enquiry.symptoms,
        note=enquiry.note,
        said=said,
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
    )


def _facts(enquiry: Enquiry, said: Said) -> Iterator[tuple[str, str]]:
    """Question and answer, in the order of a call; an answer nobody gave is blank."""
    asked = asked_of(enquiry)
    budget = enquiry.budget
    yield say("Who called"), enquiry.caller or enquiry.customer.name
    yield say("Telephone"), enquiry.customer.telephone
    yield say("E-mail"), enquiry.customer.email
    yield say("Service so far"), "; ".join(said.history)
    yield say("What it is for now"), said.planned
    yield say("Aim"), said.target
    yield say("Needed on"), said_day(enquiry.needed_on) if enquiry.needed_on else ""
    yield say("Budget"), _budget(budget, said) if budget else ""
    yield say("Who pays"), enquiry.who_pays
    yield say("Class"), asked.class_code or ""
    yield say("Class rules"), enquiry.class_rules
    yield say("Fuel"), enquiry.fuel
    yield say("Comes to us"), str(Delivered(asked.engine.delivered).label)


def _budget(budget: Decimal, said: Said) -> str:
    amount = say_figure(budget, said.decimals)
    return say("at most {amount} {currency} with tax", amount=amount, currency=said.currency)
