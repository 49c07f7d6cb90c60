"""Today: each role sees what it has to do, in sentences, and nobody else's."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.answers import ask
from quotes.actions.drafts import save_draft
from quotes.models import Acceptance, Engine, Quote, Revision, Workshop
from quotes.queries import today
from quotes.views.today.item import day_words
from tests.cast import PASSWORD, books, builder, desk, owner
from tests.quotes import cast

NOW = timezone.now()
TODAY = timezone.localdate(NOW)


@pytest.fixture
def issued(workshop: Workshop, engine: Engine) -> Revision:
    """Issued just now: it stands for thirty days."""
    return issued_days_ago(0, engine)


def sheet(client: Client, person: User) -> str:
    client.force_login(person)
    response = client.get(reverse("home"))
    assert response.status_code == 200
    return response.content.decode()


def sentences(client: Client, part: str, person: User | None = None) -> list[str]:
    client.force_login(person or desk())
    return [item.what for item in client.get(reverse("home")).context[part]]


def issued_days_ago(days: int, of: Engine) -> Revision:
    then = NOW - timedelta(days=days)
    return Revision.objects.get(pk=cast.issued(cast.draft(of, now=then), now=then).pk)


def test_a_question_must_be_answered_today(client: Client, issued: Revision) -> None:
    ask(revision=issued, text="Could the clutch wait?", name="Marel Otten", now=NOW)

    client.force_login(desk())
    item = client.get(reverse("home")).context["for_us"][0]

    assert item.what == f"Answer Marel Otten on {issued.quote.title}: “Could the clutch wait?”"
    assert item.must


def test_a_long_question_is_shortened(client: Client, issued: Revision) -> None:
    ask(revision=issued, text="w" * 4000, name="Marel Otten", now=NOW)

    assert len(sentences(client, "for_us")[0]) < 200


def test_a_quote_that_waits_for_the_customer_is_not_ours_to_do(client: Client, issued: Revision) -> None:
    assert sentences(client, "for_us") == []
    assert sentences(client, "waiting") == [
        f"Yes or no to {issued.quote.title}, revision 1; stands until {day_words(issued.valid_until)}"
    ]


def test_in_its_last_days_a_quote_is_rung_about(client: Client, workshop: Workshop, engine: Engine) -> None:
    revision = issued_days_ago(28, engine)

    last_day = day_words(revision.valid_until)
    assert sentences(client, "for_us") == [
        f"Ring Marel Otten: {revision.quote.title}, revision 1 stands until {last_day}"
    ]
    assert sentences(client, "waiting") == []


@pytest.mark.parametrize(("days", "must"), [(28, False), (29, True), (30, True)])
def test_on_its_last_two_days_it_must_be_today(
    client: Client, workshop: Workshop, engine: Engine, days: int, must: bool
) -> None:
    issued_days_ago(days, engine)

    client.force_login(desk())
    assert client.get(reverse("home")).context["for_us"][0].must == must


def test_a_quote_that_went_by_is_rung_about_for_a_month(
    client: Client, workshop: Workshop, engine: Engine
) -> None:
    issued_days_ago(40, engine)
    assert "lapsed on" in sentences(client, "for_us")[0]

    Quote.objects.all().update(closed_at=NOW)
    assert sentences(client, "for_us") == []


def test_long_gone_quotes_are_left_in_peace(client: Client, workshop: Workshop, engine: Engine) -> None:
    issued_days_ago(30 + 31, engine)

    assert sentences(client, "for_us") == []


def test_a_draft_waits_to_be_finished(client: Client, quote: Quote) -> None:
    assert sentences(client, "for_us") == [f"Finish {quote.title} for Marel Otten, or close it"]


def test_a_quote_changed_since_it_was_sent_waits_to_be_issued(client: Client, issued: Revision) -> None:
    save_draft(
        quote=issued.quote,
        request=cast.request(on=date(2027, 1, 1)),
        expected_version=1,
        by=desk(),
        now=NOW + timedelta(minutes=1),
    )

    what = f"Issue revision 2 of {issued.quote.title}: changed since Marel Otten was sent it"
    assert sentences(client, "for_us") == [what]


def test_a_yes_of_today_stands_under_accepted(client: Client, issued: Revision) -> None:
    cast.accepted(issued, now=NOW)

    assert sentences(client, "accepted") == [f"Marel Otten said yes to {issued.quote.title}, Mild build"]
    assert sentences(client, "waiting") == []


def test_only_the_owner_sees_what_the_set_up_lacks(
    no_catalogue: None, client: Client, issued: Revision
) -> None:
    assert "The catalogue is empty" in sheet(client, owner())
    assert "The catalogue is empty" not in sheet(client, desk())


def test_the_builder_sees_the_builds_in_hand_and_takes_them_off_the_bench(
    client: Client, issued: Revision
) -> None:
    yes = cast.accepted(issued, now=NOW)
    assert "Mild build" in sheet(client, builder())

    client.post(reverse("build-done", args=[yes.pk]))

    assert "Nothing is on the bench." in sheet(client, builder())
    assert Acceptance.objects.get().done_by == "Bram Tolley"


def test_pressing_done_twice_keeps_the_first_time(client: Client, issued: Revision) -> None:
    yes = cast.accepted(issued, now=NOW)
    client.force_login(builder())
    client.post(reverse("build-done", args=[yes.pk]))
    first = Acceptance.objects.get().done_at

    client.post(reverse("build-done", args=[yes.pk]))

    assert Acceptance.objects.get().done_at == first


@pytest.mark.parametrize("person", [desk, books])
def test_a_build_is_not_taken_off_the_bench_by_others(
    client: Client, issued: Revision, person: object
) -> None:
    yes = cast.accepted(issued, now=NOW)
    client.force_login(person())  # type: ignore[operator]

    assert client.post(reverse("build-done", args=[yes.pk])).status_code == 403
    assert Acceptance.objects.get().done_at is None


def test_the_books_see_the_sum_and_the_deposit_with_their_totals(client: Client, issued: Revision) -> None:
    yes = cast.accepted(issued, now=NOW)

    page = sheet(client, books())

    assert page.count(f"{yes.gross:,.2f}") == 2
    assert page.count(f"{yes.deposit:,.2f}") == 2


def test_where_more_is_there_than_is_shown_the_sheet_says_so_and_adds_up_all(
    client: Client, issued: Revision, engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(today, "MOST", 1)
    first, second = (cast.accepted(of, now=NOW) for of in (issued, issued_days_ago(1, engine)))
    issued_days_ago(40, engine)

    page = sheet(client, owner())

    assert "The last 1 of 2; the foot is that of all." in page
    assert f"{first.gross + second.gross:,.2f}" in page
    assert "Ten of each sort; the rest is in the lists of" in page


def test_the_books_do_not_see_the_desks_list(client: Client, quote: Quote) -> None:
    assert "For us to do" not in sheet(client, books())


def test_a_person_without_a_role_is_told_whom_to_ask(client: Client, workshop: Workshop) -> None:
    stranger = User.objects.create_user("stranger", password=PASSWORD)

    assert "Ask the owner for one." in sheet(client, stranger)


@pytest.mark.parametrize("count", [1, 5])
def test_one_line_and_five_cost_the_same_queries(
    client: Client, workshop: Workshop, count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for index in range(count):
        of = cast.customer(f"Customer {index}")
        cast.draft(cast.engine(of, f"A-{index}"))
        issued_days_ago(0, cast.engine(of, f"B-{index}"))
        asked = issued_days_ago(0, cast.engine(of, f"C-{index}"))
        ask(revision=asked, text="When?", name="Marel Otten", now=NOW)
        issued_days_ago(29, cast.engine(of, f"D-{index}"))
        issued_days_ago(40, cast.engine(of, f"E-{index}"))
        cast.accepted(issued_days_ago(0, cast.engine(of, f"F-{index}")), now=NOW)
    client.force_login(owner())
    client.get("/")  # reads the catalogue and the options accepted, which are kept

    with django_assert_num_queries(57):
        client.get(reverse("home"))
