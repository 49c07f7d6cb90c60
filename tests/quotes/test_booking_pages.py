"""Booking from the page, its confirmation on screen and on paper, and the owner's terms."""

from __future__ import annotations

import io
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from quotes.actions.enquiry import keep_enquiry, say_again
from quotes.models import Booking, BookingTerms, Engine, Enquiry, SlotDeposit
from quotes.queries.bench_diary import diary
from quotes.queries.booking import sheet_of_booking
from quotes.queries.enquiry import said_of
from tests import cast as people
from tests.quotes import cast, enquiry_cast
from tests.quotes.test_enquiry_pages import text_of
from tests.shipped import load_shipped

pytestmark = pytest.mark.usefixtures("workshop")
TERMS = {
    "kept_inside_days": "14",
    "spoken_round_to": "50",
    "storage_free_days": "7",
    "storage_a_day": "12.50",
    "storage": "Ask us.",
    "bring": "The engine\nThe key",
    "deposit_single450": "80",
    "deposit_twin650": "90",
    "deposit_four600": "160",
    "deposit_four1000": "170",
}


@pytest.fixture
def desk(client: Client) -> Client:
    client.force_login(people.desk())
    return client


@pytest.fixture
def loaded(db: None) -> None:
    load_shipped()


@pytest.fixture
def worked(loaded: None, engine: Engine) -> Enquiry:
    """A call worked out on the shipped catalogue today."""
    now = timezone.now()
    asked = cast.request(on=timezone.localdate(now))
    return keep_enquiry(
        customer=engine.customer,
        engine=engine,
        request=asked,
        needed_on=None,
        budget=None,
        note="",
        by=people.desk(),
        now=now,
    )


def sent(**change: str) -> dict[str, str]:
    week = next(week for week in diary(timezone.localdate()).bench.weeks[1:] if week.free)
    return {
        "tier": "refresh",
        "week": week.monday.isoformat(),
        "delivered": "loose",
        "deposit": "150",
        "authority": "team",
        "authority_name": "Sorrel Otten",
        "said_how": "message",
        "limit_sum": "200",
        "old_parts": "returned",
        "agreed_by": "",
    } | change


def book(client: Client, row: Enquiry, **change: str) -> Any:
    return client.post(reverse("enquiry-book", args=[row.pk]), sent(**change))


def test_a_call_is_worked_out_kept_and_booked_on_the_shipped_catalogue(desk: Client, worked: Enquiry) -> None:
    assert [option.tier for option in said_of(worked).options] == ["refresh", "mild", "full"]
    response = book(desk, worked)
    booked = Booking.objects.get()
    assert response["Location"] == reverse("booking", args=[booked.pk])
    option = said_of(worked).option("refresh")
    assert option is not None
    assert abs(booked.hours - option.hours) < Decimal("0.01")
    assert (f"{booked.deposit} {booked.limit_sum}", booked.authority) == ("150.00 200.00", "team")


def test_an_engine_in_the_chassis_is_booked_with_more_hours(desk: Client, worked: Enquiry) -> None:
    book(desk, worked, delivered="in_chassis")
    option = said_of(worked).option("refresh")
    assert option is not None
    assert 6 <= Booking.objects.get().hours - option.hours <= 10


def test_saying_it_again_takes_todays_bench(loaded: None, worked: Enquiry) -> None:
    before = said_of(worked)
    enquiry_cast.fill(timezone.localdate(), 3, now=timezone.now())
    after = said_of(say_again(enquiry=worked, now=timezone.now()))
    assert before.options[0].slot is not None
    assert after.options[0].slot is not None
    assert after.options[0].slot.start > before.options[0].slot.start


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("tier", "", "Nothing is picked: choose one"),
        ("week", "2020-01-06", "“2020-01-06” is not one of"),
        ("deposit", "lots", "“lots” is not a number"),
        ("authority_name", "", "Nothing is given: write the full name"),
        ("limit_sum", "-1", "“-1” is not a number"),
        ("old_parts", "sold", "“sold” is not one of"),
    ],
)
def test_a_fault_stands_at_its_field_and_nothing_is_booked(
    desk: Client, engine: Engine, field: str, typed: str, said: str
) -> None:
    response = book(desk, enquiry_cast.enquiry(engine), **{field: typed})
    assert response.status_code == 422
    form = response.context["form"]
    assert said in form.errors[field][0]
    assert form["authority_name"].value() == (typed if field == "authority_name" else "Sorrel Otten")
    assert not Booking.objects.exists()


def test_a_tick_and_the_name_of_who_agreed_go_together(desk: Client, engine: Engine) -> None:
    row = enquiry_cast.enquiry(engine)
    assert "agreed_by" in book(desk, row, agreed="on").context["form"].errors
    assert "agreed" in book(desk, row, agreed_by="Marel Otten").context["form"].errors


def test_a_week_that_can_not_hold_the_job_is_said_at_the_week(desk: Client, worked: Enquiry) -> None:
    week = diary(timezone.localdate()).bench.weeks[1].monday
    enquiry_cast.fill(week + timedelta(weeks=1), 6, now=timezone.now())
    response = book(desk, worked, tier="full", week=week.isoformat())
    assert response.status_code == 422
    assert "The first week with room is" in response.context["form"].errors["week"][0]
    assert response.context["form"]["tier"].value() == "full"


def test_the_booked_enquiry_leads_to_its_booking(desk: Client, engine: Engine) -> None:
    row = enquiry_cast.enquiry(engine)
    booked = enquiry_cast.booking(row)
    response = desk.get(reverse("enquiry-book", args=[row.pk]))
    assert response["Location"] == reverse("booking", args=[booked.pk])


def test_page_and_paper_say_the_same(desk: Client, engine: Engine) -> None:
    booked = enquiry_cast.booking(enquiry_cast.enquiry(engine))
    page = text_of(desk.get(reverse("booking", args=[booked.pk])))
    response = desk.get(reverse("booking-pdf", args=[booked.pk]))
    assert response["Content-Type"] == "application/pdf"
    paper = " ".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(response.content)).pages)
    paper = " ".join(paper.split())
    for words in (
        "It must be here by 27 November 2026",
        "$150.00 holds the week",
        "not refundable inside 30 days",
        "Spare shims",
        "up to $200.00 with tax",
        "the rider: Marel Otten",
        "10.00 USD a day for storage",
    ):
        assert words in paper, words
        assert words in page, words
    assert "Signature" in paper


def test_a_booking_leads_to_its_deposit_and_to_taking_the_engine_in(desk: Client, engine: Engine) -> None:
    booked = enquiry_cast.booking(enquiry_cast.enquiry(engine))
    page = desk.get(reverse("booking", args=[booked.pk])).content.decode()
    assert f"/bench/new/?booking={booked.pk}" in page
    assert f"/payments/new/?booking={booked.pk}" in page
    form = desk.get(reverse("payment-new"), {"booking": booked.pk}).context["form"]
    assert (form["amount"].value(), form["reference"].value()) == ("150", booked.number)


def test_terms_agreed_to_are_noted_and_on_the_paper(desk: Client, engine: Engine) -> None:
    booked = enquiry_cast.booking(enquiry_cast.enquiry(engine))
    address = reverse("booking-agree", args=[booked.pk])
    today = timezone.localdate()
    tomorrow = today + timedelta(days=1)
    assert desk.post(address, {"agreed_by": "Marel Otten", "on": tomorrow.isoformat()}).status_code == 422
    assert desk.post(address, {"agreed_by": "", "on": today.isoformat()}).status_code == 422
    assert desk.post(address, {"agreed_by": "Marel Otten", "on": today.isoformat()}).status_code == 302
    content = desk.get(reverse("booking-pdf", args=[booked.pk])).content
    paper = " ".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(content)).pages)
    day = f"{today.day} {today:%B %Y}"
    assert f"Marel Otten agreed to these terms on {day}" in " ".join(paper.split())
    assert "Signature" not in paper


def test_a_cancelled_booking_says_so_and_its_week_is_free(desk: Client, engine: Engine) -> None:
    booked = enquiry_cast.booking(enquiry_cast.enquiry(engine))
    address = reverse("booking-cancel", args=[booked.pk])
    assert desk.post(address, {"because": ""}).status_code == 422
    assert desk.post(address, {"because": "No money"}).status_code == 302
    assert "No money" in text_of(desk.get(reverse("booking", args=[booked.pk])))
    assert not Booking.objects.standing().exists()


def test_a_builder_reads_a_booking_and_can_not_cancel_it(client: Client, engine: Engine) -> None:
    booked = enquiry_cast.booking(enquiry_cast.enquiry(engine))
    client.force_login(people.builder())
    page = client.get(reverse("booking", args=[booked.pk]))
    assert (page.status_code, "Cancel B-" in text_of(page)) == (200, False)
    assert client.post(reverse("booking-cancel", args=[booked.pk]), {"because": "x"}).status_code == 403


def test_the_owner_keeps_terms_that_later_bookings_follow(
    client: Client, loaded: None, engine: Engine
) -> None:
    client.force_login(people.owner())
    assert client.post(reverse("booking-terms"), TERMS).status_code == 302
    sheet = sheet_of_booking(enquiry_cast.booking(enquiry_cast.enquiry(engine)))
    assert (sheet.kept_inside_days, sheet.bring) == (14, ("The engine", "The key"))
    assert sheet.storage[0].startswith("Engines and parts that are not collected within 7 days")
    assert SlotDeposit.objects.get(type_code="four600").amount == 160


@pytest.mark.both_databases
@pytest.mark.parametrize(
    ("field", "typed"),
    [("spoken_round_to", "0"), ("kept_inside_days", "400"), ("deposit_four600", "-1"), ("bring", "a\x00")],
)
def test_terms_out_of_their_limits_keep_nothing(client: Client, loaded: None, field: str, typed: str) -> None:
    client.force_login(people.owner())
    response = client.post(reverse("booking-terms"), TERMS | {field: typed})
    assert response.status_code == 422
    assert list(response.context["form"].errors) == [field]
    assert not BookingTerms.objects.exists()
