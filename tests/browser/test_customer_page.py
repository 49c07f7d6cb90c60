"""The customer's page in a real browser: sound at every width, usable without scripts, labels apart."""

from __future__ import annotations

from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from quotes.actions.answers import ask
from quotes.actions.drafts import close_quote
from quotes.actions.links import new_link
from quotes.models import Acceptance, Revision
from tests.browser.chromium import DESK, PHONE
from tests.browser.conftest import OpenPage
from tests.browser.steps import sheet_is_sound, sheet_is_sound_at_both
from tests.cast import desk
from tests.documents.samples import EDGES
from tests.documents.worked_sheet import worked_four
from tests.quotes import cast

SMALL_PHONE = (320, 640)
TABLET = (768, 1024)


@pytest.fixture
def no_documents(monkeypatch: pytest.MonkeyPatch) -> None:
    """No PDF and no workbook: the page under test needs neither, and they take seconds."""
    monkeypatch.setattr("quotes.actions.issuing.run_later", lambda *work, **told: None)
    monkeypatch.setattr("quotes.actions.accepting.render_receipt", lambda acceptance_id: None)


@pytest.fixture
def revision(transactional_db: None, no_documents: None) -> Revision:
    """What the real sums say of a tired four, issued today."""
    cast.workshop()
    quote = cast.draft(cast.engine(cast.customer()))
    return cast.issued(quote, now=timezone.now(), comparison=worked_four().comparison, papers=False)


def address(revision: Revision) -> str:
    return f"/q/{new_link(quote=revision.quote, by=desk(), now=timezone.now()).token}/"


@pytest.mark.parametrize("size", [DESK, TABLET, PHONE, SMALL_PHONE], ids=["desk", "tablet", "phone", "small"])
def test_the_page_is_sound_at_every_width(
    revision: Revision, open_page: OpenPage, size: tuple[int, int]
) -> None:
    page = open_page(size)
    page.goto(address(revision))
    expect(page.get_by_role("heading", level=1)).to_have_text("Three ways to build your engine")
    sheet_is_sound(page)


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_a_yes_with_a_fault_first_is_sound_all_the_way(
    revision: Revision, open_page: OpenPage, size: tuple[int, int]
) -> None:
    page = open_page(size)
    page.goto(address(revision))
    page.get_by_role("button", name="Say yes to what I picked").click()
    expect(page.get_by_role("alert")).to_contain_text("Which one: Nothing is picked")
    expect(page.locator("#id_yes-option_error")).to_be_visible()
    sheet_is_sound(page)
    page.get_by_role("radio", name="Refresh").check()
    page.locator("#id_yes-name").fill("Marel Otten")
    page.get_by_label("I say yes as").select_option("owner of the engine")
    page.get_by_label("I have read what is left as it is").check()
    page.get_by_label("I have read what this rests on").check()
    sheet_is_sound(page)
    page.get_by_role("button", name="Say yes to what I picked").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Thank you: yes to refresh")
    sheet_is_sound(page)
    assert Acceptance.objects.get().tier == "refresh"


def test_extras_wait_until_their_option_is_picked_and_nothing_above_moves(
    revision: Revision, phone_page: Page
) -> None:
    phone_page.goto(address(revision))
    extras = phone_page.get_by_text("On top of refresh, if you like")
    expect(extras).to_be_hidden()
    choice = phone_page.get_by_role("radio", name="Refresh")
    choice.scroll_into_view_if_needed()
    before = choice.bounding_box()
    choice.check()
    expect(extras).to_be_visible()
    assert choice.bounding_box() == before


def test_the_keyboard_is_enough_to_ask(revision: Revision, desk_page: Page) -> None:
    desk_page.goto(address(revision))
    desk_page.get_by_label("What would you like to know?").focus()
    desk_page.keyboard.type("Is the dyno run in it?")
    desk_page.keyboard.press("Tab")
    desk_page.keyboard.type("Marel Otten")
    desk_page.keyboard.press("Enter")
    expect(desk_page.locator("#said")).to_contain_text("Is the dyno run in it?")
    sheet_is_sound(desk_page)


def test_a_quote_that_no_longer_stands_is_sound(revision: Revision, desk_page: Page) -> None:
    ask(revision=revision, text="Still there?", name="Marel Otten", now=timezone.now())
    close_quote(quote=revision.quote, now=timezone.now())
    desk_page.goto(address(revision))
    expect(desk_page.get_by_text("We have taken this quote back.")).to_be_visible()
    sheet_is_sound_at_both(desk_page)


def drawn_texts(page: Page) -> list[dict[str, Any]]:
    """Where the browser has set each text of the picture that is shown, by the ink of its letters."""
    found: list[dict[str, Any]] = page.evaluate(
        """() => [...document.querySelectorAll(".drawn svg")]
        .filter(svg => svg.getBoundingClientRect().width)
        .flatMap(svg => [...svg.querySelectorAll("text")].map(text => {
            const box = text.getBoundingClientRect();
            const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
            return {words: text.textContent, left: box.left, right: box.right,
                    size: text.getAttribute("font-size") * scale,
                    top: box.top + box.height * 0.3, bottom: box.bottom - box.height * 0.25};
        }))"""
    )
    return found


@pytest.mark.parametrize("size", [DESK, SMALL_PHONE], ids=["desk", "small"])
@pytest.mark.parametrize("edge", ["prices a few units apart", "long ladders"])
def test_as_the_browser_sets_them_no_two_labels_touch_and_none_is_small(
    transactional_db: None, no_documents: None, open_page: OpenPage, size: tuple[int, int], edge: str
) -> None:
    cast.workshop()
    quote = cast.draft(cast.engine(cast.customer()))
    revision = cast.issued(quote, now=timezone.now(), comparison=EDGES[edge](), papers=False)
    page = open_page(size)
    page.goto(address(revision))
    texts = drawn_texts(page)
    assert len(texts) > 15
    assert min(text["size"] for text in texts) >= 11
    for index, one in enumerate(texts):
        for other in texts[index + 1 :]:
            apart = (
                one["right"] <= other["left"] + 0.5
                or other["right"] <= one["left"] + 0.5
                or one["bottom"] <= other["top"]
                or other["bottom"] <= one["top"]
            )
            assert apart, (one["words"], other["words"])
