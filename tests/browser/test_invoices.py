"""The desk from a yes to a receipt, by keyboard where it types: the build's money, a draft, the payment."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from quotes.actions.books import drawing
from quotes.models import Acceptance, Invoice, OpenItem, Payment
from tests.books import cast
from tests.books.conftest import plain_files
from tests.browser.steps import sheet_is_sound, sign_in


@pytest.fixture
def build(transactional_db: None, monkeypatch: pytest.MonkeyPatch) -> Acceptance:
    """A mild build that was accepted; its papers are not what is looked at here."""
    monkeypatch.setattr(drawing, "drawn", plain_files)
    monkeypatch.setattr(drawing, "warm_up", lambda: None)
    return cast.build()


def test_the_desk_goes_from_the_yes_to_the_receipt(page: Page, build: Acceptance) -> None:
    sign_in(page, "desk")
    page.goto(reverse("build-money", args=[build.pk]))
    sheet_is_sound(page)
    page.get_by_role("button", name="Invoice", exact=True).click()
    a_line_is_taken_out_by_space(page)
    page.get_by_role("button", name="Issue the invoice").click()
    page.wait_for_url(re.compile(r"/invoices/\d+/$"))
    sheet_is_sound(page)
    it_is_paid(page)


def a_line_is_taken_out_by_space(page: Page) -> None:
    """The sum follows, and follows back."""
    expect(page.locator("#draft-sum")).to_contain_text("3,186.48")
    sheet_is_sound(page)
    first = page.get_by_role("checkbox", name=re.compile("^in: ")).first
    first.focus()
    page.keyboard.press("Space")
    expect(page.locator("#draft-sum")).not_to_contain_text("3,186.48")
    page.keyboard.press("Space")
    expect(page.locator("#draft-sum")).to_contain_text("3,186.48")


def it_is_paid(page: Page) -> None:
    """One pick and one press, and the receipt is the next thing to press."""
    page.get_by_role("link", name="Take a payment", exact=True).click()
    sheet_is_sound(page)
    page.get_by_label("How?").select_option("cash")
    page.get_by_role("button", name="Take the payment").click()
    expect(page.get_by_role("link", name="Print the receipt")).to_be_visible()
    sheet_is_sound(page)
    assert Payment.objects.get().amount == Decimal("3186.48")
    assert OpenItem.objects.get(invoice=Invoice.objects.get()).open_amount == 0
