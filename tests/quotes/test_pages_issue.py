"""Issuing from the worksheet: what can't be undone says so, and the customer's address is shown once."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from quotes.models import ClassRule, Customer, Engine, Link, Quote, Workshop, token_hash
from quotes.queries.people import Role
from tests.quotes import cast
from tests.quotes.card_payload import Page, signed_in, text_of

pytestmark = pytest.mark.usefixtures("catalogue")


@pytest.fixture
def in_a_class(workshop: Workshop, engine: Engine) -> Quote:
    """A draft for a class that allows no other cams."""
    ClassRule.objects.create(code="stock", name="Stock")
    return cast.draft(engine, class_code="stock")


def issue(quote: Quote, role: Role = "desk", **posted: str) -> Page:
    """The page after pressing the button."""
    return signed_in(role).post(reverse("quote-issue", args=[quote.pk]), posted, follow=True)


def token_on(page: Page) -> str:
    found = re.search(r'id="id_link"[^>]*value="[^"]*/([^/"]+)/?"', page.content.decode())
    assert found, "no address for the customer on the page"
    return found[1]


def test_the_button_says_until_when_it_stands_and_that_it_can_not_be_undone(quote: Quote) -> None:
    Workshop.objects.update(quote_validity_days=14)
    page = text_of(signed_in().get(reverse("quote", args=[quote.pk])))
    until = timezone.localdate() + timedelta(days=14)
    assert (
        f"It stands until {until.day}\N{NO-BREAK SPACE}{until:%b}".replace("\N{NO-BREAK SPACE}", " ") in page
    )
    assert "Issue revision 1" in page
    assert "this can't be undone" in page


def test_issuing_gives_a_number_a_revision_and_an_address_for_the_customer(quote: Quote) -> None:
    page = issue(quote)
    row = Quote.objects.get()
    assert row.number is not None
    assert row.latest is not None
    assert Link.objects.get().token_hash == token_hash(token_on(page))


def test_the_address_is_shown_this_once(quote: Quote) -> None:
    client = signed_in()
    shown = client.post(reverse("quote-issue", args=[quote.pk]), follow=True)
    assert 'id="id_link"' in shown.content.decode()
    assert 'id="id_link"' not in client.get(reverse("quote", args=[quote.pk])).content.decode()


def test_pressed_twice_there_is_one_revision(quote: Quote) -> None:
    issue(quote)
    issue(quote)
    assert Quote.objects.get().revisions.count() == 1
    assert Link.objects.count() == 1


def test_a_further_link_can_be_made_and_withdrawn(quote: Quote) -> None:
    issue(quote)
    page = signed_in().post(reverse("quote-link", args=[quote.pk]), follow=True)
    link = Link.objects.get(token_hash=token_hash(token_on(page)))
    signed_in().post(reverse("quote-link-withdraw", args=[quote.pk, link.pk]))
    link.refresh_from_db()
    assert link.withdrawn_at is not None
    assert "withdrawn" in text_of(signed_in().get(reverse("quote", args=[quote.pk])))


def test_there_is_no_link_before_anything_is_issued(quote: Quote) -> None:
    assert signed_in().post(reverse("quote-link", args=[quote.pk])).status_code == 404


def test_an_option_that_breaks_the_class_is_not_issued_without_the_tick(in_a_class: Quote) -> None:
    page = issue(in_a_class)
    assert "The class does not allow what these options change" in text_of(page)
    assert 'aria-describedby="id_class_tick_error"' in page.content.decode()
    assert Quote.objects.get().latest is None


def test_with_the_tick_it_is_issued_and_remembered(in_a_class: Quote) -> None:
    issue(in_a_class, class_tick="on")
    revision = Quote.objects.get().latest
    assert revision is not None
    assert revision.class_tick


def test_what_changed_from_the_last_revision_stands_in_the_list(quote: Quote) -> None:
    issue(quote)
    sheet = {"option": "refresh", "version": "1", "do": "own-line", "own-description": "Rain cover",
             "own-kind": "part", "own-quantity": "1", "own-unit_price": "12"}  # fmt: skip
    signed_in().post(reverse("quote", args=[quote.pk]), sheet)
    page = text_of(issue(quote))
    assert "2, the latest" in page
    assert "1, superseded" in page
    assert "Refresh, put in: Rain cover" in page


def test_the_strip_says_where_the_quote_stands(quote: Quote) -> None:
    address = reverse("quote", args=[quote.pk])
    assert "not issued" in text_of(signed_in().get(address))
    Quote.objects.update(edited_at=timezone.now() - timedelta(hours=1))
    issue(quote)
    assert "revision 1, issued" in text_of(signed_in().get(address))


@pytest.mark.parametrize(
    ("name", "begins", "ends"), [("quote-pdf", b"%PDF", ".pdf"), ("quote-workbook", b"PK", ".xlsx")]
)
def test_paper_and_workbook_of_a_revision_can_be_taken_away(
    quote: Quote, name: str, begins: bytes, ends: str
) -> None:
    issue(quote)
    answer = signed_in("books").get(reverse(name, args=[quote.pk, 1]))
    assert answer.content.startswith(begins)
    assert answer["Content-Disposition"].endswith(f'-1{ends}"')


def test_a_revision_that_is_not_there_is_not_found(quote: Quote) -> None:
    assert signed_in().get(reverse("quote-pdf", args=[quote.pk, 1])).status_code == 404


def test_a_workshop_without_a_name_is_told_before_it_issues(quote: Quote) -> None:
    Workshop.objects.update(name="")
    page = issue(quote)
    assert "The workshop has no name." in text_of(page)
    assert Quote.objects.get().latest is None


def test_the_builder_does_not_issue(quote: Quote) -> None:
    answer = signed_in("builder").post(reverse("quote-issue", args=[quote.pk]))
    assert answer.status_code == 403


def test_the_customer_and_engine_of_the_strip_lead_to_their_pages(quote: Quote) -> None:
    page = signed_in().get(reverse("quote", args=[quote.pk])).content.decode()
    assert reverse("customer", args=[Customer.objects.get().pk]) in page
    assert reverse("engine", args=[Engine.objects.get().pk]) in page


def test_what_somebody_has_changed_meanwhile_is_not_issued_unseen(quote: Quote) -> None:
    Quote.objects.filter(pk=quote.pk).update(version=2, edited_by="Orla Venn")

    page = text_of(issue(quote, version="1"))

    assert "Orla Venn has changed this quote since you opened it. Nothing was issued" in page
    assert Quote.objects.get().latest is None
