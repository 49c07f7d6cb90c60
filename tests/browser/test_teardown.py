"""The teardown sheet on a tablet: without a connection, with an answer lost, signed out, with gloves on."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Browser, Page, expect
from pytest_django.live_server_helper import LiveServer

from quotes.models import FindingSeen, Job, Measured, Photo
from tests.bench.cast import job as a_job
from tests.browser.chromium import TABLET
from tests.browser.conftest import OpenPage
from tests.browser.line import Line
from tests.browser.steps import sheet_is_sound, sign_in
from tests.documents.bench.test_pictures import photo as picture
from tests.shipped import load_shipped

EXHAUST = "r:stem_ex:"
TARGETS = (
    "main a, main button, main input:not([type=hidden], [type=radio]), main select, main textarea, "
    "main summary, main label.pick, main .seen label, header a, header button"
)
TOO_SMALL = """targets => [...document.querySelectorAll(targets)]
  .filter(e => e.checkVisibility() && !e.classList.contains("hidden"))
  .filter(e => Math.min(e.getBoundingClientRect().height, e.getBoundingClientRect().width) < 44)
  .map(e => e.outerHTML.slice(0, 90))"""
MOST_BYTES = 155_000
"""Of the sheet, its style and its scripts, unpacked; the letters (53 kB) come once for the whole site."""
KEPT = "Everything is kept and sent."


@pytest.fixture
def of(transactional_db: None) -> Job:
    load_shipped()
    return a_job()


@pytest.fixture
def tablet(cut_off: Page, of: Job) -> Page:
    """The builder's tablet, at the sheet."""
    sign_in(cut_off, "builder")
    cut_off.goto(reverse("teardown", args=[of.pk]))
    expect(cut_off.locator("#kept")).to_have_text(KEPT)
    return cut_off


def waiting(page: Page, count: int) -> None:
    expect(page.locator("#kept")).to_have_text(f"Kept on this tablet, {count} waiting.")


def type_in(page: Page, at: int, text: str) -> None:
    page.locator(f"[name='{EXHAUST}{at}']").fill(text)
    page.keyboard.press("Tab")


def until_the_sheet_is_at_hand(page: Page) -> None:
    while not page.evaluate("caches.match(location.href).then(found => Boolean(found))"):
        page.wait_for_timeout(50)


def test_a_sheet_filled_without_a_connection_is_there_once_and_whole(
    tablet: Page, line: Line, tmp_path: Path
) -> None:
    until_the_sheet_is_at_hand(tablet)
    tablet.context.set_offline(True)
    line.set("cut")
    tablet.get_by_label("Unit of exhaust stem to guide").select_option("thou")
    for at, text in enumerate(("2", "3,5", "4.1")):
        type_in(tablet, at, text)
    tablet.get_by_label("Find", exact=True).fill("breather")
    tablet.get_by_text("Leak-down above the shop limit, air at the breather").click()
    tablet.get_by_text("Renew, and look at its companions").click()
    (tmp_path / "photo.jpg").write_bytes(picture(2400, 1800))
    tablet.locator("[name=photo]").set_input_files(tmp_path / "photo.jpg")
    tablet.get_by_role("button", name="Keep this finding").click()
    waiting(tablet, 5)

    tablet.reload()
    waiting(tablet, 5)
    assert tablet.locator(f"[name='{EXHAUST}1']").input_value() == "3,5"
    expect(tablet.locator(".found")).to_contain_text("Photo waiting.")
    type_in(tablet, 2, "3.9")
    assert not Measured.objects.exists()

    line.set("whole")
    tablet.context.set_offline(False)
    expect(tablet.locator("#kept")).to_have_text(KEPT)
    kept = [(row.place, row.entered, row.value, row.verdict) for row in Measured.objects.order_by("place")]
    assert kept == [
        ("cylinder 1, exhaust left", "2", Decimal("0.0508"), "within"),
        ("cylinder 1, exhaust right", "3,5", Decimal("0.0889"), "watch"),
        ("cylinder 2, exhaust left", "3.9", Decimal("0.09906"), "watch"),
    ]
    assert (FindingSeen.objects.count(), Photo.objects.get().finding_id) == (1, FindingSeen.objects.get().pk)
    tablet.reload()
    assert tablet.locator(f"[name='{EXHAUST}1']").input_value() == "3,5"
    assert tablet.evaluate("window.teardown.all().then(rows => rows.length)") == 0


def test_an_answer_that_is_lost_brings_nothing_twice(tablet: Page, line: Line) -> None:
    line.set("answers lost")
    type_in(tablet, 0, "0.03")
    waiting(tablet, 1)
    while line.posts < 2 or not Measured.objects.exists():
        tablet.wait_for_timeout(100)
    assert Measured.objects.get().entered == "0.03"
    waiting(tablet, 1)

    line.set("whole")
    # It also sends by itself, after a while: the button may be gone before it is pressed.
    tablet.get_by_role("button", name="Send now", include_hidden=True).dispatch_event("click")
    expect(tablet.locator("#kept")).to_have_text(KEPT)

    assert Measured.objects.get().entered == "0.03"


def test_a_part_that_did_not_come_is_said_until_the_next_one_does(tablet: Page, line: Line) -> None:
    tablet.goto(reverse("bench"))
    said, box = tablet.locator("#unanswered"), tablet.get_by_role("searchbox", name="Find anything")
    line.set("cut")
    box.fill("otten")
    expect(said).to_contain_text("The site gave no answer. What you typed is still on this page.")

    line.set("whole")
    box.fill("nobody")

    expect(tablet.get_by_text("Nothing bears “nobody”.")).to_be_visible()
    expect(said).to_have_count(0)


def test_two_pages_of_one_tablet_send_everything_once(tablet: Page, line: Line) -> None:
    other = tablet.context.new_page()
    other.goto(tablet.url)
    line.set("cut")
    type_in(tablet, 0, "0.03")
    type_in(other, 1, "0.04")
    waiting(other, 2)

    line.set("whole")
    other.get_by_role("button", name="Send now").click()

    expect(other.locator("#kept")).to_have_text(KEPT)
    assert [row.entered for row in Measured.objects.order_by("place")] == ["0.03", "0.04"]


def test_signed_out_meanwhile_the_entries_stay_and_leave_after_signing_in(tablet: Page) -> None:
    cookies: Any = tablet.context.cookies()
    tablet.context.clear_cookies()
    type_in(tablet, 0, "0.11")
    expect(tablet.get_by_role("link", name="Sign in again to send.")).to_be_visible()
    assert not Measured.objects.exists()

    tablet.context.add_cookies([one for one in cookies if one["name"] == "sessionid"])
    tablet.get_by_role("button", name="Send now").click()

    expect(tablet.locator("#kept")).to_have_text(KEPT)
    assert Measured.objects.get().verdict == "past"


def test_the_verdict_follows_the_typing_and_a_refusal_stands_at_its_field(tablet: Page, of: Job) -> None:
    field = tablet.locator(f"[name='{EXHAUST}0']")
    words = tablet.locator(f"label:has([name='{EXHAUST}0']) i")
    for text, said in (("0.05", "within limits"), ("0,08", "near its limit"), ("0.1001", "past its limit")):
        field.fill(text)
        expect(words).to_have_text(said)
    field.fill("0.0.5")
    expect(words).to_contain_text("type a figure such as 0.05 or 0,05")
    Job.objects.update(left_at=of.received_at)
    type_in(tablet, 0, "0.05")
    expect(words).to_contain_text("has left the workshop")
    assert field.input_value() == "0.05"
    expect(tablet.locator("#kept")).to_contain_text("1 not taken")


@pytest.mark.parametrize("size", [TABLET, (390, 844)], ids=["tablet", "phone"])
def test_the_sheet_is_made_for_gloves_and_a_slow_line(
    of: Job, open_page: OpenPage, size: tuple[int, int]
) -> None:
    page = open_page(size)
    sign_in(page, "builder")
    weight: list[int] = []
    page.on("response", lambda answer: weight.append(0 if "font" in answer.url else len(answer.body())))
    page.goto(reverse("teardown", args=[of.pk]))
    page.wait_for_load_state("load")

    small = page.evaluate(TOO_SMALL, TARGETS)
    assert small == []
    assert sum(weight) < MOST_BYTES
    sheet_is_sound(page)


def test_a_group_is_kept_without_a_script(browser: Browser, live_server: LiveServer, of: Job) -> None:
    context = browser.new_context(base_url=live_server.url, java_script_enabled=False)
    page = context.new_page()
    sign_in(page, "builder")
    page.goto(reverse("teardown", args=[of.pk]))
    page.locator(f"[name='{EXHAUST}0']").fill("0.05")
    page.locator("#valve_train").get_by_role("button", name="Keep these readings").click()

    page.wait_for_load_state()
    assert Measured.objects.get().verdict == "within"
    context.close()
