"""The whole path: a call becomes three options, a numbered quote, a page on a phone, and a recorded yes."""

from __future__ import annotations

import re
import time

import pytest
from django.db import connection
from playwright.sync_api import Locator, Page, Route, expect

from quotes.models import Acceptance, Revision
from tests.browser.chromium import DESK, PHONE
from tests.browser.conftest import OpenPage
from tests.browser.steps import sheet_is_sound, sign_in_by_form
from tests.quotes import cast
from tests.shipped import load_shipped

SIZES = [
    pytest.param(DESK, id="desk", marks=pytest.mark.both_databases)
    if connection.vendor == "postgresql"
    else pytest.param(PHONE, id="phone")
]
"""How wide the desk's page is changes nothing of what the database is asked: one width on each."""
CALLER = "Marel Otten"


@pytest.fixture
def workshop_at_work(transactional_db: None) -> None:
    """A workshop that is set up, with the catalogue that ships."""
    load_shipped()
    cast.workshop()


def later(route: Route) -> None:
    """Let an answer through after a second."""
    time.sleep(1.0)
    route.continue_()


def row(page: Page, name: str) -> Locator:
    """A row of the options table on the new-quote page."""
    return (
        page.locator("#options")
        .get_by_role("row")
        .filter(has=page.get_by_role("rowheader", name=name, exact=True))
    )


def refresh_with_tax(page: Page) -> str:
    """The refresh's price with tax as it stands on the page."""
    return row(page, "With tax").get_by_role("cell").nth(1).inner_text()


def take_the_call(page: Page) -> None:
    """Fill the card as the caller speaks, in the order of the call."""
    page.goto("/quotes/new/")
    page.get_by_label("Who is calling?").fill(CALLER)
    page.get_by_label("Which engine type?").select_option("four600")
    page.wait_for_load_state("networkidle")
    page.get_by_label("Engine number").fill("H4-30911")
    page.get_by_label("How far has it gone?").fill("4100")
    page.get_by_label("In what use?").select_option("sprint")
    page.get_by_label("What is it for now?").select_option("endurance")
    expect(row(page, "With tax")).to_be_visible()
    page.wait_for_load_state("networkidle")


def test_what_is_typed_while_the_rows_of_a_type_are_on_their_way_stays(
    workshop_at_work: None, open_page: OpenPage
) -> None:
    """A slow answer must not wipe out what was typed in the meantime."""
    desk = open_page(DESK)
    sign_in_by_form(desk, "desk")
    expect(desk.get_by_role("button", name="Sign out")).to_be_visible()
    desk.goto("/quotes/new/")
    desk.route("**/by-type/", later)
    with desk.expect_response("**/by-type/"):
        desk.get_by_label("Which engine type?").select_option("four600")
        desk.get_by_label("How far has it gone?").fill("4100")
        desk.get_by_label("In what use?").select_option("sprint")
    desk.wait_for_load_state("networkidle")

    expect(desk.get_by_label("How far has it gone?")).to_have_value("4100")
    expect(desk.get_by_label("In what use?")).to_have_value("sprint")


@pytest.mark.parametrize("size", SIZES)
def test_a_call_becomes_a_quote_that_the_customer_says_yes_to_on_a_phone(
    workshop_at_work: None, open_page: OpenPage, size: tuple[int, int]
) -> None:
    desk = open_page(size)
    sign_in_by_form(desk, "desk")
    expect(desk.get_by_role("button", name="Sign out")).to_be_visible()
    sheet_is_sound(desk)

    take_the_call(desk)
    sheet_is_sound(desk)
    a_full_season = refresh_with_tax(desk)

    desk.get_by_label("How far this season?").fill("600")
    expect(row(desk, "With tax")).not_to_contain_text(a_full_season)
    assert refresh_with_tax(desk) < a_full_season
    desk.get_by_label("How far this season?").fill("2000")
    expect(row(desk, "With tax")).to_contain_text(a_full_season)

    desk.get_by_role("button", name="Keep as quote").click()
    desk.wait_for_url(re.compile(r"/quotes/\d+/"))
    expect(desk.get_by_role("heading", level=1)).to_be_visible()
    sheet_is_sound(desk)

    leave_one_line(desk)
    open_a_line(desk)
    issue(desk)
    address = desk.locator("#id_link").input_value()
    sheet_is_sound(desk)

    customer = open_page(PHONE)
    customer.goto(address)
    expect(customer.get_by_role("heading", level=1)).to_contain_text("ways to build your engine")
    sheet_is_sound(customer)
    say_yes(customer)
    sheet_is_sound(customer)

    accepted = Acceptance.objects.get()
    assert (accepted.tier, accepted.name) == ("refresh", CALLER)
    assert accepted.revision == Revision.objects.get()
    assert accepted.sheet_sha256 == accepted.revision.sheet_sha256
    expect(customer.get_by_role("row", name="Sum with tax")).to_contain_text(f"{accepted.gross:,.2f}")


def leave_one_line(desk: Page) -> None:
    """Take a line that is worth it, is no must and comes along with nothing, out of the refresh."""
    name = "head bolts or studs (set)"
    line = desk.get_by_role("row").filter(has=desk.get_by_role("rowheader", name=name, exact=True)).first
    expect(line.get_by_role("cell", name="worth it", exact=True)).to_be_visible()
    line.scroll_into_view_if_needed()
    stood_at = desk.evaluate("scrollY")
    with desk.expect_response(lambda answer: answer.request.method == "POST"):
        line.get_by_role("checkbox").uncheck()
    expect(desk.get_by_text("Nothing else was taken in its place.")).to_be_visible()
    kept = desk.get_by_role("checkbox", name=f"{name} in this option", exact=True)
    expect(kept).not_to_be_checked()
    expect(kept).to_be_focused()
    assert desk.evaluate("scrollY") == stood_at
    expect(desk.locator("#swap-said")).to_contain_text("With tax")
    expect(desk.get_by_role("alert")).to_have_count(0)


def open_a_line(desk: Page) -> None:
    """The whole sheet comes anew, and the focus stands in the field that was opened."""
    link = desk.locator("a[href$='#line-form']").first
    link.focus()
    desk.keyboard.press("Enter")
    expect(desk.locator("#line-form input:not([type=hidden])").first).to_be_focused()


def issue(desk: Page) -> None:
    desk.get_by_role("button", name="Issue revision 1").click()
    desk.wait_for_load_state("networkidle")
    if not desk.locator("#id_link").count():
        desk.get_by_role("button", name="Make a link for the customer").click()
    expect(desk.locator("#id_link")).to_be_visible()


def say_yes(customer: Page) -> None:
    """Pick the refresh, sign and agree."""
    yes = customer.locator("#yes")
    yes.get_by_role("radio", name=re.compile("^Refresh")).check()
    yes.get_by_label("Your name").fill(CALLER)
    yes.get_by_label("I say yes as").select_option(index=1)
    yes.get_by_role("checkbox", name=re.compile("what is left as it is")).check()
    yes.get_by_role("checkbox", name=re.compile("the cautions and the terms")).check()
    customer.get_by_role("button", name="Say yes to what I picked").click()
    expect(customer.get_by_role("heading", level=1)).to_contain_text("Thank you: yes to")


def test_an_empty_yes_says_what_is_missing_and_records_nothing(
    workshop_at_work: None, open_page: OpenPage
) -> None:
    desk = open_page(DESK)
    sign_in_by_form(desk, "desk")
    expect(desk.get_by_role("button", name="Sign out")).to_be_visible()
    take_the_call(desk)
    desk.get_by_role("button", name="Keep as quote").click()
    desk.wait_for_url(re.compile(r"/quotes/\d+/"))
    issue(desk)

    customer = open_page(PHONE)
    customer.goto(desk.locator("#id_link").input_value())
    customer.get_by_role("button", name="Say yes to what I picked").click()

    expect(customer.get_by_text("Nothing was recorded yet")).to_be_visible()
    sheet_is_sound(customer)
    assert Acceptance.objects.count() == 0
