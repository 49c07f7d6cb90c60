"""What the customer reads: open to whoever holds the link, to nobody else, and never kept by a browser."""

from __future__ import annotations

import html
import re
from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.answers import ask, decline
from quotes.actions.drafts import close_quote
from quotes.actions.links import new_link, withdraw_link
from quotes.models import Link, Quote, Revision
from tests.cast import desk
from tests.quotes import cast
from tests.sample_sheet import sample_comparison

# What the customer sends is kept on both in test_customer_yes.py; here is what is read.
pytestmark = pytest.mark.one_database

SAMPLE = sample_comparison()


@pytest.fixture
def now(quote: Quote) -> Revision:
    """A revision issued today, so that it stands."""
    return cast.issued(quote, now=timezone.now())


@pytest.fixture
def token(now: Revision) -> str:
    return new_link(quote=now.quote, by=desk(), now=timezone.now()).token


def words(content: bytes) -> str:
    plain = re.sub(r"<[^>]*>", " ", content.decode())
    return " ".join(html.unescape(plain).replace("\N{NO-BREAK SPACE}", " ").split())


def page(client: Client, token: str) -> str:
    return words(client.get(f"/q/{token}/").content)


@pytest.mark.both_databases
def test_who_holds_the_link_reads_the_quote_without_signing_in(client: Client, token: str) -> None:
    answer = client.get(f"/q/{token}/")
    assert answer.status_code == 200
    said = words(answer.content)
    for option in SAMPLE.options:
        assert f"{option.gross.typical:,.2f}" in said
    assert "can't be told apart on finishing your season" in said


def test_the_page_answers_the_customers_questions_from_leave_it_to_full_power(
    client: Client, token: str
) -> None:
    said = page(client, token)
    for asked in (
        "What does it cost, with tax?",
        "Will it see the season out?",
        "And a single meeting?",
        "If it goes, what is it most often?",
        "Can it lock the rear wheel or oil the tyre?",
        "How far is it good for?",
        "Leave it Refresh Mild build Full power",
    ):
        assert asked in said


def test_reasons_risks_honesty_cautions_and_terms_are_on_the_page(
    client: Client, token: str, now: Revision
) -> None:
    said = page(client, token)
    for sentence in (*now.sheet["honesty"], *now.sheet["cautions"], *now.sheet["terms"]):
        assert " ".join(sentence.split()) in said
    assert "Burnt in a launch: told by the rider." in said
    assert "Rider safety." in said


def test_nothing_is_picked_or_ticked_beforehand(client: Client, token: str) -> None:
    content = client.get(f"/q/{token}/").content.decode()
    assert not re.search(r"<input[^>]* checked", content)
    assert "None of these yet: please ring me" in content


def test_what_the_workshop_paid_is_nowhere_on_the_page(client: Client, token: str) -> None:
    content = client.get(f"/q/{token}/").content.decode()
    rods = next(line for line in SAMPLE.option("full").lines if line.code == "P-ROD")
    assert f"{rods.cost:,.2f}" not in content


def test_the_page_is_never_kept_never_indexed_and_tells_no_other_site(client: Client, token: str) -> None:
    answer = client.get(f"/q/{token}/")
    assert "no-store" in answer["Cache-Control"]
    assert answer["Referrer-Policy"] == "no-referrer"
    assert "noindex" in answer["X-Robots-Tag"]
    assert not answer.cookies


def test_the_page_carries_no_style_and_no_script(client: Client, token: str) -> None:
    content = client.get(f"/q/{token}/").content.decode()
    assert not re.search(r"<script|<style|\sstyle=|\son\w+=", content)


def _gone(client: Client, token: str) -> bytes:
    answer = client.get(f"/q/{token}/")
    assert answer.status_code == 404
    assert answer["Referrer-Policy"] == "no-referrer"
    return answer.content


@pytest.mark.both_databases
def test_unknown_withdrawn_and_expired_links_show_one_and_the_same_page(
    client: Client, now: Revision
) -> None:
    past = timezone.now() - timedelta(days=1)
    withdrawn = new_link(quote=now.quote, by=desk(), now=past)
    withdraw_link(link=withdrawn.link, now=timezone.now())
    expired = new_link(quote=now.quote, by=desk(), now=past, expires_at=past + timedelta(hours=1))
    shown = {_gone(client, token) for token in ("no-such-token", withdrawn.token, expired.token)}
    assert len(shown) == 1
    assert b"Sorrel Yard" not in shown.pop()


@pytest.mark.parametrize(
    "path", ["yes/", "question/", "no/", "receipt/", "quote.pdf", "quote.xlsx", "receipt.pdf"]
)
def test_nothing_behind_a_link_opens_without_it(client: Client, now: Revision, path: str) -> None:
    assert client.post(f"/q/no-such-token/{path}").status_code == 404
    assert client.get(f"/q/no-such-token/{path}").status_code == 404


def test_a_form_sent_from_a_page_that_tells_no_referrer_is_taken(token: str) -> None:
    strict = Client(enforce_csrf_checks=True)
    sent = {"ask-text": "Is the dyno run in it?", "ask-name": "Marel Otten"}
    assert strict.post(f"/q/{token}/question/", sent, headers={"origin": "null"}).status_code == 302


def test_an_address_that_only_takes_forms_leads_back_to_the_quote(client: Client, token: str) -> None:
    for path in ("yes", "question", "no"):
        answer = client.get(f"/q/{token}/{path}/")
        assert (answer.status_code, answer["Location"]) == (302, f"/q/{token}/")


def test_an_older_link_shows_the_latest_revision_and_says_so_kindly(
    client: Client, token: str, now: Revision
) -> None:
    shorter = sample_comparison(planned_in_words="1,200 miles of endurance racing")
    cast.issued(now.quote, now=timezone.now(), comparison=shorter)
    said = page(client, token)
    assert "The link you hold was sent with revision 1. Since then we have sent revision 2" in said
    assert "What changed since revision 1" in said
    assert "1,200 miles of endurance racing" in said


@pytest.mark.both_databases
def test_a_lapsed_quote_is_still_read_but_no_longer_taken(client: Client, quote: Quote) -> None:
    old = cast.issued(quote, now=timezone.now() - timedelta(days=90))
    token = new_link(quote=old.quote, by=desk(), now=timezone.now()).token
    said = page(client, token)
    assert "This quote stood until" in said
    assert "Say yes to what I picked" not in said
    assert "Send the question" in said


def test_a_quote_that_was_taken_back_says_so(client: Client, token: str, now: Revision) -> None:
    close_quote(quote=now.quote, now=timezone.now())
    said = page(client, token)
    assert "We have taken this quote back." in said
    assert "Say yes to what I picked" not in said


def test_an_accepted_quote_leads_to_its_receipt(client: Client, token: str, now: Revision) -> None:
    cast.accepted(now, now=timezone.now())
    said = page(client, token)
    assert "Marel Otten has said yes to Mild build." in said
    assert "Say yes to what I picked" not in said
    assert "No, thank you" not in said


def test_a_declined_quote_may_still_be_accepted(client: Client, token: str, now: Revision) -> None:
    decline(revision=now, text="too dear", name="Marel Otten", now=timezone.now())
    said = page(client, token)
    assert "You told us no." in said
    assert "Say yes to what I picked" in said


def test_what_was_asked_and_answered_stands_on_the_page(client: Client, token: str, now: Revision) -> None:
    from quotes.actions.answers import answer

    reply = ask(revision=now, text="Is the dyno in it?", name="Marel Otten", now=timezone.now())
    assert "We have it, and answer as soon as we can." in page(client, token)
    answer(reply=reply, text="Yes, six hours of it.", by=desk(), now=timezone.now())
    assert "Yes, six hours of it." in page(client, token)


def test_markup_in_what_was_asked_is_shown_and_not_obeyed(client: Client, token: str, now: Revision) -> None:
    ask(revision=now, text="<script>alert(1)</script>", name="<b>M</b>", now=timezone.now())
    content = client.get(f"/q/{token}/").content.decode()
    assert "<script" not in content
    assert "&lt;script&gt;" in content


@pytest.mark.parametrize("questions", [1, 20])
@pytest.mark.both_databases
def test_reading_takes_the_same_queries_however_much_was_asked(
    client: Client,
    token: str,
    now: Revision,
    questions: int,
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    for number in range(questions):
        ask(revision=now, text=f"Question {number}", name="Marel Otten", now=timezone.now())
    with django_assert_num_queries(4):
        client.get(f"/q/{token}/")


@pytest.mark.both_databases
def test_the_papers_are_the_stored_ones(client: Client, token: str, now: Revision) -> None:
    pdf, book = (client.get(f"/q/{token}/quote.{kind}") for kind in ("pdf", "xlsx"))
    now.refresh_from_db()
    assert now.pdf is not None
    assert now.workbook is not None
    assert pdf.content == bytes(now.pdf.content)
    assert book.content == bytes(now.workbook.content)
    assert pdf["Content-Disposition"] == f'attachment; filename="{now.quote.number}-1.pdf"'
    assert "no-store" in pdf["Cache-Control"]


def test_the_token_itself_is_stored_nowhere(token: str) -> None:
    link = Link.objects.get()
    assert token not in str(vars(link))


def test_a_customer_who_reads_german_is_shown_the_page_in_german(client: Client, quote: Quote) -> None:
    quote.customer.language = "de"
    quote.customer.save()
    token = new_link(quote=cast.issued(quote, now=timezone.now()).quote, by=desk(), now=timezone.now()).token
    content = client.get(f"/q/{token}/").content
    assert '<html lang="de">' in content.decode()
    assert "Meiner Auswahl zusagen" in words(content)
