"""Who opens the sheets of the books, and what each says while nothing is in them."""

from __future__ import annotations

import pytest
from django.urls import reverse

from quotes.models import Workshop
from tests.books import cast
from tests.books.books_pages import browser
from tests.books.page_forms import text_of


@pytest.fixture
def workshop_set_up(db: None) -> Workshop:
    """A workshop whose books are set up as well, so that nothing waits."""
    cast.keep_settings(country="DE", iban="DE74123456780000000042")
    return cast.vat_shop()


SHEETS = {
    "books-home": "Nothing waits.",
    "overdue": "Nobody owes anything.",
    "bank-list": "No bank files yet.",
    "bank-new": "Fetch a statement from the bank as CSV.",
    "bill-list": "No bills yet.",
    "bill-new": "Enter the bill",
    "bill-import": "Nothing is entered before you have looked",
    "journal": "No entries yet.",
    "trial-balance": "No entries up to",
    "export-list": "No exports yet.",
    "export-new": "Nothing to export yet.",
    "months": "No months yet.",
    "opening": "Enter the opening balances",
    "accounts": "Where money goes",
}


@pytest.mark.parametrize(("name", "says"), SHEETS.items())
def test_an_empty_sheet_says_what_to_do_first(workshop_set_up: Workshop, name: str, says: str) -> None:
    answer = browser("books").get(reverse(name))

    assert answer.status_code == 200
    assert says in text_of(answer)


def test_the_margin_is_the_owners_alone(workshop_set_up: Workshop) -> None:
    assert browser("books").get(reverse("margin")).status_code == 403
    assert "Job margin" not in text_of(browser("books").get(reverse("books-home")))

    page = browser("owner").get(reverse("margin"))

    assert "No builds yet." in text_of(page)


def test_the_head_names_the_books_for_those_who_keep_them(workshop_set_up: Workshop) -> None:
    assert reverse("books-home") in browser("books").get(reverse("home")).content.decode()
    assert f'href="{reverse("books-home")}"' not in browser("desk").get(reverse("home")).content.decode()
