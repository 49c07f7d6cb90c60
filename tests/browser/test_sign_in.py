"""Signing in, in a real browser."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from tests.browser.steps import sheet_is_sound, sheet_is_sound_at_both, sign_in_by_form


def test_a_wrong_password_is_told_and_the_name_stays(page: Page) -> None:
    page.goto("/sign-in/")
    page.get_by_label("Your sign-in name").fill("desk")
    page.get_by_label("Password").fill("not the password")
    page.keyboard.press("Enter")

    expect(page.get_by_role("alert")).to_be_visible()
    expect(page.get_by_label("Your sign-in name")).to_have_value("desk")
    sheet_is_sound(page)


def test_a_persons_own_sign_in_is_sound_with_a_fault(desk_page: Page) -> None:
    sign_in_by_form(desk_page, "desk")
    desk_page.get_by_role("link", name="Your sign-in").click()
    desk_page.get_by_label("Mail address").fill("no address")
    desk_page.keyboard.press("Enter")

    expect(desk_page.locator("#mail_mail_error")).to_contain_text("This is no mail address")
    sheet_is_sound_at_both(desk_page)


def test_the_keyboard_is_enough_to_sign_in(page: Page) -> None:
    sign_in_by_form(page, "desk")

    expect(page.get_by_role("button", name="Sign out")).to_be_visible()
    sheet_is_sound(page)


def test_the_keys_are_shown_and_lead_on_unless_they_are_turned_off(desk_page: Page) -> None:
    sign_in_by_form(desk_page, "desk")
    expect(desk_page.get_by_role("button", name="Sign out")).to_be_visible()
    desk_page.wait_for_load_state()
    desk_page.keyboard.press("?")
    expect(desk_page.get_by_role("dialog", name="Keys")).to_be_visible()
    expect(desk_page.get_by_role("heading", name="Keys")).to_be_focused()
    desk_page.get_by_role("button", name="Turn the letters off").click()
    desk_page.keyboard.press("Escape")
    desk_page.keyboard.press("?")
    expect(desk_page.get_by_role("dialog")).to_have_count(0)

    desk_page.evaluate("localStorage.clear()")
    desk_page.keyboard.press("g")
    desk_page.keyboard.press("q")
    desk_page.wait_for_url("**/quotes/")
