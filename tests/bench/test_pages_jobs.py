"""The list of jobs, a job's own page, and what is done on it."""

from __future__ import annotations

import csv
import io
import re
from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from quotes.actions.bench.jobs import hold, move
from quotes.models import Job, Payment, TeardownDeclined, TeardownLeave, TeardownPrice
from quotes.queries.people import Role
from tests.bench.cast import NOW, built_job, job, leave, stripped_job
from tests.bench.teardown_rows import read
from tests.books.books_pages import browser, day
from tests.cast import builder, desk
from tests.quotes import cast
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db

LIST_QUERIES = 8


def text(answer: Any) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", answer.content.decode()).split())


def post(client: Client, row: Job, where: str, **typed: Any) -> str:
    return text(client.post(f"/bench/{row.pk}/{where}/", typed, follow=True))


def test_the_list_shows_state_tag_and_engine_and_leaves_out_what_has_left() -> None:
    job(tag="blue 1")
    gone = stripped_job(job(number="H4-20999", tag="blue 2"))
    move(job=gone, step="released", by=desk(), now=NOW)
    page = text(browser("builder").get("/bench/"))
    assert "received" in page
    assert "blue 1" in page
    assert "blue 2" not in page
    assert "blue 2" in text(browser("builder").get("/bench/?where=left"))
    assert "in service" in text(browser("builder").get("/bench/?state=in+service"))


def test_the_list_is_found_by_tag_sorted_and_taken_away() -> None:
    job(tag="blue 1")
    leave(job(number="H4-20999", tag="blue 2"))
    found = browser("desk").get("/bench/", {"q": "blue h420999", "sort": "place", "as": "csv"})
    rows = list(csv.DictReader(io.StringIO(found.content.decode("utf-8-sig"))))
    assert [(row["State"], row["Tag"]) for row in rows] == [("authorised for teardown", "blue 2")]
    everything = browser("desk").get("/bench/", {"sort": "-place", "as": "csv"}).content.decode("utf-8-sig")
    assert [row["Tag"] for row in csv.DictReader(io.StringIO(everything))] == ["blue 2", "blue 1"]


@pytest.mark.parametrize("count", [1, 20])
def test_the_list_asks_as_often_for_twenty_as_for_one(
    count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for number in range(count):
        job(number=f"H4-{number:05}")
    client = browser("builder")
    with django_assert_num_queries(LIST_QUERIES):
        assert client.get("/bench/").status_code == 200


def test_a_job_shows_what_came_with_it_and_asks_for_leave_first() -> None:
    page = text(browser("desk").get(f"/bench/{job().pk}/"))
    for said in (
        "Received.",
        "L 117",
        "Carburettors; Clutch cable",
        "Dipstick",
        "4,100 miles, from a logbook",
    ):
        assert said in page
    assert "Take the leave to strip" in page


def test_two_like_engines_name_each_others_tags() -> None:
    first = job(tag="blue 1")
    job(number="H4-20999", tag="blue 2")
    assert "tag blue 2" in text(browser("builder").get(f"/bench/{first.pk}/"))


def test_steps_are_made_by_a_press_and_only_where_they_may() -> None:
    row = job()
    client = browser("builder")
    assert "no leave to strip" in post(client, row, "step", step="stripped")
    leave(row)
    assert "Stripped and measured." in post(client, row, "step", step="stripped")
    assert "said yes to" in post(client, row, "step", step="assembling")
    assert "is no step that is made here" in post(client, row, "step", step="released")
    assert Job.objects.get().step == "stripped"


def test_with_leave_the_sheet_comes_first_and_the_step_once_something_was_read() -> None:
    row = job()
    leave(row)
    client = browser("builder")
    page = client.get(f"/bench/{row.pk}/").content.decode()
    assert f'class="press" href="/bench/{row.pk}/teardown/"' in page
    read(row, "rings", verdict="within")
    page = client.get(f"/bench/{row.pk}/").content.decode()
    assert '<button class="press" name="step" value="stripped">' in page


def test_what_is_open_of_the_strip_downs_deposit_stands_on_the_job() -> None:
    row = job()
    leave(row, deposit=Decimal(470))
    assert "470.00 to pay before anything is undone" in text(browser("builder").get(f"/bench/{row.pk}/"))


def test_an_engine_without_a_quote_is_quoted_from_its_job() -> None:
    row = job()
    assert f"/quotes/new/?engine={row.engine_id}" in browser("desk").get(f"/bench/{row.pk}/").content.decode()


def test_a_job_rests_and_goes_on() -> None:
    row = job()
    client = browser("desk")
    assert "write what it waits for" in post(client, row, "step", step="on_hold", note="")
    assert "On hold. No answer since Monday" in post(
        client, row, "step", step="on_hold", note="No answer since Monday"
    )
    assert "On hold" not in text(client.get("/bench/?state=received"))
    assert "Received." in post(client, row, "step", step="goes_on")


def test_only_the_owner_is_offered_to_strip_without_leave() -> None:
    row = job()
    assert "Strip without leave" not in text(browser("builder").get(f"/bench/{row.pk}/"))
    owner = browser("owner")
    assert "Strip without leave" in text(owner.get(f"/bench/{row.pk}/"))
    assert "Stripped and measured" in post(owner, row, "step", step="stripped", note="He stood beside it")


def test_a_quote_is_tied_on_the_page() -> None:
    row = job()
    quote = cast.draft(row.engine)
    client = browser("desk")
    assert "Nothing is picked" in post(client, row, "quote", quote="")
    assert "Its work is offered under" in post(client, row, "quote", quote=quote.pk)
    assert Job.objects.get().quote == quote


def said(**change: Any) -> dict[str, Any]:
    return {
        "price": "940",
        "put_back_price": "1570",
        "deposit": "470",
        "credited_if_ahead": "on",
        "if_not": "in_boxes",
        "name": "Marel Otten",
        "how": "telephone",
        "telephone": "000 555 0199",
    } | change


def test_leave_is_taken_with_its_number_and_its_deposit_after_it() -> None:
    load_shipped()
    row = job()
    client = browser("desk")
    assert 'value="1132"' in client.get(f"/bench/{row.pk}/leave/").content.decode()
    assert "write the number that was called" in post(client, row, "leave", **said(telephone=""))
    assert "more than the price" in post(client, row, "leave", **said(deposit="941"))
    page = post(client, row, "leave", **said())
    assert "gave leave on" in page
    assert "€470.00 to pay before anything is undone" in page
    money = {
        "customer": "Marel Otten, 000 555 0199",
        "amount": "470",
        "method": "card",
        "on": day().isoformat(),
    }
    client.post(f"/payments/new/?job={row.pk}", money | {"key": "one"})
    payment = Payment.objects.get()
    assert (payment.job, payment.deposit) == (row, True)
    assert "held for the strip-down of J-2026-0001" in text(client.get(f"/payments/{payment.pk}/"))
    assert "held" in text(client.get(f"/bench/{row.pk}/leave/"))
    assert "Pay the deposit back" in text(client.get(f"/payments/{payment.pk}/"))
    assert client.get(f"/payments/back/deposit/{payment.pk}/").status_code == 200


def test_a_no_begins_the_invoice_and_the_engine_leaves() -> None:
    row = stripped_job(job())
    client = browser("desk")
    assert "Nothing is picked" in post(client, row, "no", outcome="", name="Marel Otten", how="message")
    page = post(client, row, "no", outcome="in_boxes", name="Marel Otten", how="message")
    assert "Declined, goes in boxes." in page
    declined = TeardownDeclined.objects.get()
    draft = client.get(f"/invoices/drafts/{declined.draft_id}/")
    assert "Strip-down, job J-2026-0001" in draft.content.decode()
    assert "It has left us" in page
    assert "Sent back." in post(client, row, "sent-back", note="Fetched")


def test_the_owner_sets_what_a_strip_down_costs() -> None:
    load_shipped()
    client = browser("owner")
    form = client.get("/bench/prices/").context["form"]
    typed = {name: str(value) for name, value in form.initial.items()}
    page = client.post("/bench/prices/", typed | {"price_four600": "600", "deposit_four600": "601"})
    assert "more than the strip-down itself" in text(page)
    assert not TeardownPrice.objects.exists()
    client.post("/bench/prices/", typed | {"price_four600": "600", "deposit_four600": "300"})
    assert TeardownPrice.objects.get(type_code="four600").price == 600


@pytest.mark.parametrize(
    ("role", "name", "status"),
    [
        ("books", "", 200),
        ("books", "leave/", 403),
        ("books", "no/", 403),
        ("builder", "leave/", 200),
        ("builder", "no/", 200),
    ],
)
def test_who_opens_what(role: Role, name: str, status: int) -> None:
    assert browser(role).get(f"/bench/{built_job().pk}/{name}").status_code == status


def test_books_read_a_job_and_change_nothing() -> None:
    row = job()
    page = text(browser("books").get(f"/bench/{row.pk}/"))
    assert "Received." in page
    assert "Take the leave to strip" not in page
    assert browser("books").post(f"/bench/{row.pk}/step/", {"step": "on_hold"}).status_code == 403
    assert not TeardownLeave.objects.exists()


def test_the_head_names_the_bench_for_everybody() -> None:
    built_job()
    hold(job=Job.objects.get(), because="Waits for its owner", by=builder(), now=NOW)
    for role in ("desk", "builder", "books", "owner"):
        assert 'href="/bench/" aria-current="page">Bench' in browser(role).get("/bench/").content.decode()


def test_another_number_than_the_books_have_is_pointed_out() -> None:
    same = job(marks=(("Engine number", "h4 20417"),))
    other = job(number="H4-20999", marks=(("Engine number", "H4-20991"),))
    assert "Is it the right engine?" not in text(browser("desk").get(f"/bench/{same.pk}/"))
    page = text(browser("desk").get(f"/bench/{other.pk}/"))
    assert "H4-20991 is stamped on it; our books say H4-20999" in page


def test_the_day_of_leaving_stands_only_where_engines_have_left() -> None:
    job()
    assert "Left" not in [column.header for column in browser("desk").get("/bench/").context["table"].columns]
    shown = browser("desk").get("/bench/?where=all").context["table"].columns
    assert "Left" in [column.header for column in shown]
