"""Today, the list of quotes and the settings in a real browser, at the width of a desk and of a phone."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import connection, transaction
from django.utils import timezone
from playwright.sync_api import Page, expect

from quotes.actions.answers import ask
from quotes.models import Workshop
from tests.browser.steps import sheet_is_sound, sheet_is_sound_at_both, sign_in
from tests.quotes import cast


@pytest.fixture(autouse=True)
def busy_workshop(transactional_db: None) -> None:
    """A workshop with a draft, a question, a quote about to lapse, one that waits and one accepted.

    Its papers are drawn when somebody asks for them: five of them would take longer than the test.
    """
    with transaction.atomic():
        _five_quotes_and_a_draft()
        connection.run_on_commit.clear()


def _five_quotes_and_a_draft() -> None:
    cast.workshop()
    now = timezone.now()
    of = cast.customer()
    ages = {"lapsing": 29, "lapsed": 40, "waiting": 1, "asked": 2, "accepted": 3}
    for index, (what, days) in enumerate(ages.items()):
        then = now - timedelta(days=days)
        revision = cast.issued(
            cast.draft(cast.engine(of, f"H4-2041{index}"), now=then), now=then, papers=False
        )
        if what == "asked":
            ask(revision=revision, text="Could the clutch wait?", name="Marel Otten", now=now)
        if what == "accepted":
            cast.accepted(revision, now=now)
    cast.draft(cast.engine(of, "H4-20419"))


def test_today_is_sound_with_every_part_of_it(desk_page: Page) -> None:
    sign_in(desk_page, "owner")
    desk_page.goto("/")

    expect(desk_page.get_by_role("heading", level=1)).to_have_text("Today")
    sheet_is_sound_at_both(desk_page)


def test_a_question_on_the_day_sheet_leads_to_its_quote(desk_page: Page) -> None:
    sign_in(desk_page, "desk")
    desk_page.goto("/")

    link = desk_page.get_by_role("link", name="Could the clutch wait?")

    expect(link).to_be_visible()
    assert "/quotes/" in str(link.get_attribute("href"))


def test_a_build_leaves_the_bench_with_one_press(page: Page) -> None:
    sign_in(page, "builder")
    page.goto("/")

    page.get_by_role("button", name="Done").click()

    expect(page.get_by_role("status")).to_contain_text("is off the bench")
    sheet_is_sound(page)


def test_the_list_of_quotes_is_narrowed_with_the_keyboard_alone(page: Page) -> None:
    sign_in(page, "desk")
    page.goto("/quotes/")
    page.get_by_label("Find by number, customer or engine").fill("20411")
    page.keyboard.press("Enter")

    expect(page.get_by_text("1 of 6 quotes")).to_be_visible()
    sheet_is_sound(page)


def test_a_quote_is_found_from_any_page(desk_page: Page) -> None:
    sign_in(desk_page, "desk")
    desk_page.goto("/")
    desk_page.keyboard.press("/")
    desk_page.keyboard.type("20412")

    found = desk_page.locator("#find-hanging")
    expect(found.get_by_role("link").first).to_contain_text("20412")


def test_the_owner_changes_a_setting_and_finds_it_kept(page: Page) -> None:
    sign_in(page, "owner")
    page.goto("/settings/")
    sheet_is_sound(page)
    page.get_by_label("A quote stands for").fill("21")
    page.get_by_role("button", name="Keep the settings").click()

    expect(page.get_by_role("status")).to_contain_text("The settings are kept.")
    expect(page.get_by_label("A quote stands for")).to_have_value("21")
    assert Workshop.objects.get().quote_validity_days == 21


def test_a_setting_that_can_not_be_is_told_at_its_field_and_what_was_typed_stays(page: Page) -> None:
    sign_in(page, "owner")
    page.goto("/settings/")
    page.get_by_label("A quote stands for").fill("a month")
    page.get_by_label("Telephone").fill("0" * 60)
    page.get_by_role("button", name="Keep the settings").click()

    field = page.get_by_label("A quote stands for")
    expect(field).to_have_value("a month")
    expect(field).to_have_attribute("aria-invalid", "true")
    expect(page.locator(f"#{field.get_attribute('aria-describedby')}".split(" ")[0])).to_contain_text(
        "“a month” is not a number from 1 to 365, whole."
    )
    expect(page.get_by_label("Telephone")).to_have_value("0" * 60)
    sheet_is_sound(page)


def test_of_two_owners_at_once_the_second_is_shown_where_they_differ(page: Page) -> None:
    sign_in(page, "owner")
    page.goto("/settings/")
    Workshop.objects.update(
        quote_validity_days=14, telephone="000 555 0107", version=1, changed_by="Somebody Else"
    )
    page.get_by_label("A quote stands for").fill("21")
    page.get_by_role("button", name="Keep the settings").click()

    expect(page.get_by_role("alert")).to_contain_text("Somebody Else has changed this")
    expect(page.get_by_role("cell", name="quote validity days")).to_be_visible()
    expect(page.get_by_label("A quote stands for")).to_have_value("21")
    expect(page.get_by_label("Telephone")).to_have_value("000 555 0107")
    sheet_is_sound(page)
