"""From a kept call to a booked week, and a file of customers taken in, in a real browser."""

from __future__ import annotations

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import FilePayload, Page

from quotes.actions.enquiry import keep_enquiry
from quotes.models import Booking, Customer, Enquiry
from tests.browser.chromium import DESK, PHONE
from tests.browser.conftest import OpenPage
from tests.browser.steps import sheet_is_sound, sign_in
from tests.cast import desk
from tests.imports.customer_files import as_file, customer_only, line
from tests.quotes import cast
from tests.shipped import load_shipped

SIZES = pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
OLD = {"From": "2020-03-01", "To": "2020-10-10"}


@pytest.fixture
def enquiry(transactional_db: None) -> Enquiry:
    """A call worked out on the shipped catalogue today, for a 600 four."""
    load_shipped()
    cast.workshop()
    engine = cast.engine(cast.customer())
    now = timezone.now()
    return keep_enquiry(
        customer=engine.customer,
        engine=engine,
        request=cast.request(on=timezone.localdate(now)),
        needed_on=None,
        budget=None,
        note="",
        by=desk(),
        now=now,
    )


def sound_page(page: Page, name: str, *args: object) -> None:
    page.goto(reverse(name, args=args))
    sheet_is_sound(page)


@SIZES
def test_a_call_is_booked_and_stands_on_the_bench(
    open_page: OpenPage, enquiry: Enquiry, size: tuple[int, int]
) -> None:
    page = open_page(size)
    sign_in(page, "desk")
    sound_page(page, "enquiry-list")
    page.get_by_role("link", name=enquiry.number).click()
    page.get_by_role("heading", name="Say aloud").wait_for()
    sheet_is_sound(page)
    page.get_by_role("link", name="Book a week").click()
    page.get_by_role("heading", name="What to bring").wait_for()
    sheet_is_sound(page)
    page.get_by_label("Which way of building?").select_option("mild")
    page.get_by_label("Week from").select_option(index=1)
    page.get_by_role("button", name="Book the week").click()
    page.get_by_role("heading", name="Slot deposit").wait_for()
    sheet_is_sound(page)
    sound_page(page, "slots")
    assert page.get_by_role("link", name=Booking.objects.get().number).is_visible()


@SIZES
def test_a_file_of_customers_is_checked_and_taken_in(
    open_page: OpenPage, enquiry: Enquiry, size: tuple[int, int]
) -> None:
    page = open_page(size)
    sign_in(page, "desk")
    faulty, sound = (
        as_file(line(**OLD, E_mail="x")),
        as_file(line(**OLD, Engine_number="H4-9"), customer_only("Dov Marlish")),
    )
    for content in (faulty, sound):
        sound_page(page, "import-customers")
        file = FilePayload(name="list.csv", mimeType="text/csv", buffer=content)
        page.get_by_label("Workbook or CSV file").set_input_files(file)
        page.get_by_role("button", name="Check the file").click()
        page.get_by_role("heading", name="What the file would add").wait_for()
        sheet_is_sound(page)
    before = Customer.objects.count()
    page.get_by_role("button", name="Take it all in").click()
    page.get_by_text("Taken in on").wait_for()
    sheet_is_sound(page)
    assert Customer.objects.count() == before + 2


@SIZES
def test_the_owners_terms_for_bookings_are_kept(
    open_page: OpenPage, enquiry: Enquiry, size: tuple[int, int]
) -> None:
    page = open_page(size)
    sign_in(page, "owner")
    sound_page(page, "booking-terms")
    page.get_by_label("A spoken price is rounded to").fill("50")
    page.get_by_role("button", name="Keep the terms").click()
    page.get_by_text("The terms are kept.").wait_for()
    sheet_is_sound(page)
