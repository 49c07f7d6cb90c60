"""Booking a week: it counts in the queue, keeps its place, and can be given back."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from catalogue.calc.money import round_half_up
from quotes.actions.accepting import mark_done
from quotes.actions.answers import decline
from quotes.actions.booking import (
    AlreadyBooked,
    WeekFull,
    agree_terms,
    cancel_booking,
)
from quotes.actions.enquiry import quote_enquiry
from quotes.calc.intake.booking_sheet import deposit_is_kept, deposit_sentence
from quotes.models import Booking, Counter, Engine, Enquiry, SlotDeposit, Workshop
from quotes.queries.bench_diary import diary
from quotes.queries.booking import sheet_of_booking, slot_deposit
from quotes.queries.slots import jobs_in_hand
from quotes.queries.workshop import shop_rules
from tests.cast import builder, desk
from tests.quotes import cast, enquiry_cast
from tests.quotes.cast import NOW, ON
from tests.quotes.enquiry_cast import HOURS, NEXT_WEEK

pytestmark = pytest.mark.usefixtures("workshop")


@pytest.fixture
def enquiry(engine: Engine) -> Enquiry:
    return enquiry_cast.enquiry(engine)


def in_hand() -> Decimal:
    return shop_rules(ON).queue.hours_in_hand


def promised() -> dict[date, Decimal]:
    return {week.monday: week.promised for week in diary(ON).bench.weeks if week.promised}


def test_booked_hours_stand_in_their_week_and_the_weeks_after(enquiry: Enquiry) -> None:
    enquiry_cast.booking(enquiry)
    assert sum(promised().values()) == round_half_up(HOURS["refresh"])
    assert min(promised()) == NEXT_WEEK


def test_a_week_booked_at_once_comes_before_new_jobs(enquiry: Enquiry) -> None:
    Workshop.objects.update(sellable_hours_a_week=1, bench_hours_a_day=Decimal("0.5"))
    assert in_hand() == 0
    enquiry_cast.booking(enquiry, week=diary(ON).bench.weeks[0].monday)
    assert in_hand() == round_half_up(HOURS["refresh"])


def test_a_cancelled_booking_frees_its_week(enquiry: Enquiry) -> None:
    booked = enquiry_cast.booking(enquiry)
    cancel_booking(booking=booked, because="No money", by=desk(), now=NOW)
    assert promised() == {}
    assert enquiry_cast.booking(enquiry).slot_week == NEXT_WEEK


def test_a_booking_is_cancelled_once_and_with_a_reason(enquiry: Enquiry) -> None:
    booked = enquiry_cast.booking(enquiry)
    with pytest.raises(ValidationError, match="Write why"):
        cancel_booking(booking=booked, because=" ", by=desk(), now=NOW)
    for because in ("No money", "Another reason"):
        cancel_booking(booking=booked, because=because, by=desk(), now=NOW)
    assert Booking.objects.get().cancelled_because == "No money"


def test_a_full_week_is_refused_with_the_first_that_has_room(enquiry: Enquiry) -> None:
    first, second = enquiry_cast.many(2)
    enquiry_cast.booking(first, tier="full")
    with pytest.raises(WeekFull, match="The first week with room is") as full:
        enquiry_cast.booking(second, tier="full")
    assert full.value.earliest is not None
    assert full.value.earliest.start > NEXT_WEEK
    assert enquiry_cast.booking(second, tier="full", week=full.value.earliest.start).number == "B-2026-0002"


def test_a_refused_week_uses_up_no_number(enquiry: Enquiry) -> None:
    with pytest.raises(WeekFull):
        enquiry_cast.booking(enquiry, week=date(2026, 1, 5))
    assert not Counter.objects.filter(kind="B", value__gt=0).exists()
    assert not Booking.objects.exists()


def test_a_later_booking_of_an_earlier_week_moves_nobody(enquiry: Enquiry) -> None:
    first, second = enquiry_cast.many(2)
    enquiry_cast.booking(first, week=NEXT_WEEK + timedelta(weeks=2), tier="full")
    before = promised()
    enquiry_cast.booking(second, now=NOW + timedelta(hours=1), tier="refresh")
    after = promised()
    assert {week: after[week] for week in before} == before


def test_a_second_press_books_once_and_another_week_is_refused(enquiry: Enquiry) -> None:
    assert enquiry_cast.booking(enquiry) == enquiry_cast.booking(enquiry)
    with pytest.raises(AlreadyBooked, match="B-2026-0001 holds the week of 30 November 2026"):
        enquiry_cast.booking(enquiry, week=NEXT_WEEK + timedelta(weeks=1))


def test_the_engine_must_be_in_on_the_last_open_day_before(enquiry: Enquiry) -> None:
    assert enquiry_cast.booking(enquiry).arrive_by == date(2026, 11, 27)


def test_the_hours_of_a_yes_take_the_place_of_the_booked_ones(enquiry: Enquiry) -> None:
    enquiry_cast.booking(enquiry, tier="refresh")
    quote = quote_enquiry(enquiry=enquiry, by=desk(), now=NOW)
    later = NOW + timedelta(days=1)
    yes = cast.accepted(cast.issued(quote), tier="mild", now=later)
    jobs = jobs_in_hand()
    assert [(job.promise.hours, job.promise.week) for job in jobs] == [(yes.hours, NEXT_WEEK)]
    assert jobs[0].promised_at == NOW
    mark_done(acceptance=yes, by=builder(), now=later)
    assert jobs_in_hand() == ()


def test_a_declined_quote_gives_its_booked_hours_back(enquiry: Enquiry) -> None:
    enquiry_cast.booking(enquiry)
    revision = cast.issued(quote_enquiry(enquiry=enquiry, by=desk(), now=NOW))
    assert len(jobs_in_hand()) == 1
    decline(revision=revision, text="Too dear", name="Marel Otten", now=NOW)
    assert jobs_in_hand() == ()


def test_the_slot_deposit_is_by_engine_type_until_the_owner_sets_it() -> None:
    types = ("single450", "twin650", "four600", "four1000")
    assert [slot_deposit(code) for code in types] == [100, 100, 150, 150]
    SlotDeposit.objects.create(type_code="four600", amount=Decimal("175.50"))
    assert slot_deposit("four600") == Decimal("175.50")


def test_the_confirmation_stays_as_it_was_given(enquiry: Enquiry) -> None:
    given = sheet_of_booking(enquiry_cast.booking(enquiry))
    Workshop.objects.update(terms="New terms.", name="Another name")
    assert sheet_of_booking(Booking.objects.get()) == given
    assert "New terms." not in given.terms


def test_the_deposit_is_kept_inside_thirty_days_and_refunded_before(enquiry: Enquiry) -> None:
    sheet = sheet_of_booking(enquiry_cast.booking(enquiry))
    assert "not refundable inside 30 days" in deposit_sentence(sheet, "$150.00")
    assert deposit_is_kept(sheet, NEXT_WEEK - timedelta(days=29))
    assert not deposit_is_kept(sheet, NEXT_WEEK - timedelta(days=30))


def test_terms_are_agreed_to_by_somebody_on_a_day_and_once(enquiry: Enquiry) -> None:
    booked = enquiry_cast.booking(enquiry)
    with pytest.raises(ValidationError, match="Write the name"):
        agree_terms(booking=booked, agreed_by=" ", on=ON)
    for name in ("Marel Otten", "Somebody else"):
        agree_terms(booking=booked, agreed_by=name, on=ON)
    kept = Booking.objects.get()
    assert (kept.terms_agreed_by, kept.terms_agreed_on) == ("Marel Otten", ON)


@pytest.mark.parametrize(
    "change",
    [{"authority_name": "a\x00b"}, {"authority": "nobody"}, {"deposit": Decimal(-1)}, {"tier": "wild"}],
)
def test_what_can_not_be_kept_books_nothing(enquiry: Enquiry, change: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        enquiry_cast.booking(enquiry, **change)
    assert not Booking.objects.exists()
