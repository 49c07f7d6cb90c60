"""The pages of the lives: who may look, who decides, and what they say."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalogue.models import LifeChange
from catalogue.queries import engine_catalogue
from quotes.calc.learning.proposal import Proposal
from quotes.calc.learning.standard_quotes import Effect
from quotes.models import Evidence
from quotes.views.learning import life as life_view
from tests.books.page_forms import text_of
from tests.cast import books, builder, desk, owner
from tests.learning.cast import CLUTCH, approved, clutch, entered, many, proposed

LIFE = reverse("life", args=[CLUTCH, "miles"])
ROW: dict[str, str] = {
    "seen-component": CLUTCH,
    "seen-type_code": "four600",
    "seen-engine": "H4-21103",
    "seen-on": "2024-07-08",
    "seen-outcome": "sound",
    "seen-amount": "4,000",
    "seen-unit": "mi",
    "seen-duty": "endurance",
    "seen-tier": "refresh",
    "seen-source": "Bench book 5",
}


@pytest.fixture
def at_desk(client: Client) -> Client:
    """The owner, signed in."""
    client.force_login(owner())
    return client


def approval(**change: str) -> dict[str, str]:
    return {
        "rule": "learnt",
        "shown": proposed().fingerprint,
        "learnt-reason": "Three seasons of clutches",
        **change,
    }


def test_an_empty_list_says_what_to_do_first(at_desk: Client) -> None:
    page = text_of(at_desk.get(reverse("lives")))

    assert "Nothing has been seen yet." in page
    assert "Enter an earlier strip-down" in page


def test_the_list_shows_counts_weights_and_what_is_proposed(at_desk: Client) -> None:
    entered()
    entered(engine="H4-21127", outcome="failed")
    page = text_of(at_desk.get(reverse("lives")))

    assert "1 life has new evidence." in page
    assert "Clutch friction plates (set), track 1 0 1" in page
    assert "21 % ours, 79 % catalogue" in page
    assert "2,500 miles" in page


def test_the_owner_approves_with_a_reason_and_takes_back_with_another(at_desk: Client) -> None:
    entered()
    page = text_of(at_desk.get(LIFE))
    assert "Catalogue lives are renewal habits, not failure data" in page
    assert "1 still sound" in page

    at_desk.post(reverse("life-approve", args=[CLUTCH, "miles"]), approval())

    change = LifeChange.objects.get()
    assert "Three seasons of clutches" in text_of(at_desk.get(LIFE))
    assert engine_catalogue("four600").components[CLUTCH].lives["miles"].typical > 2500
    entry = text_of(at_desk.get(reverse("catalogue:entry", args=["components", CLUTCH])))
    assert "in place of the life below: approved on our own record by" in entry
    back = reverse("life-back", args=[change.pk])
    refused = at_desk.post(back, {f"back-{change.pk}-reason": ""}, follow=True)
    assert "Not taken back. Nothing is given: say why." in text_of(refused)
    at_desk.post(back, {f"back-{change.pk}-reason": "The book was misread"})
    assert "Taken back by" in text_of(at_desk.get(LIFE))
    assert engine_catalogue("four600").components[CLUTCH].lives["miles"].typical == 2500


@pytest.mark.parametrize(
    ("change", "status", "words"),
    [
        ({"learnt-reason": " "}, 422, "Nothing is given: say why."),
        ({"shown": "another"}, 409, "The evidence or the life has changed since this page was opened."),
    ],
)
def test_a_refused_approval_changes_nothing_and_keeps_what_was_typed(
    at_desk: Client, change: dict[str, str], status: int, words: str
) -> None:
    entered()
    page = at_desk.post(reverse("life-approve", args=[CLUTCH, "miles"]), approval(**change))

    assert page.status_code == status
    assert words in text_of(page)
    assert not LifeChange.objects.exists()
    if "shown" in change:
        assert "Three seasons of clutches" in text_of(page)


def test_ten_failures_offer_a_fit_with_its_plot_and_approving_it_gives_the_shape(at_desk: Client) -> None:
    many(10, outcome="failed")
    many(4)
    page = at_desk.get(LIFE)
    assert "Fitted to our own record alone" in text_of(page)
    assert "<svg" in page.content.decode()

    form = {
        "rule": "likelihood",
        "shown": proposed(rule="likelihood").fingerprint,
        "likelihood-reason": "Enough",
    }
    at_desk.post(reverse("life-approve", args=[CLUTCH, "miles"]), form)

    assert engine_catalogue("four600").components[CLUTCH].shape_on("miles") > 2.5
    assert clutch().proposal is None


def test_the_standard_quotes_are_worked_out_only_when_asked_for(
    at_desk: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    entered()
    asked: list[Proposal] = []

    def effects_of(proposal: Proposal, on: date) -> tuple[Effect, ...]:
        asked.append(proposal)
        return ()

    monkeypatch.setattr(life_view, "effects_of", effects_of)

    at_desk.get(LIFE)
    assert not asked
    page = at_desk.get(LIFE, {"quotes": "learnt"})

    assert [one.about.component for one in asked] == [CLUTCH]
    assert "Three standard quotes, before and after" in text_of(page)


def test_a_row_is_entered_and_the_next_of_the_same_book_begins_where_it_left(at_desk: Client) -> None:
    page = at_desk.post(reverse("lives-earlier"), ROW, follow=True)

    assert Evidence.objects.get().exit == 4000
    assert "Kept: clutch friction plates (set), H4-21103." in text_of(page)
    assert b'value="Bench book 5"' in page.content


def test_a_row_with_a_fault_is_not_kept_and_stays_as_it_was_typed(at_desk: Client) -> None:
    page = at_desk.post(reverse("lives-earlier"), {**ROW, "seen-amount": "-4", "seen-duty": "moon"})

    assert page.status_code == 422
    assert "“-4” is not a number from 0 to 1000000" in text_of(page)
    assert b'value="H4-21103"' in page.content
    assert not Evidence.objects.exists()
    other = at_desk.post(reverse("lives-earlier"), {**ROW, "seen-seen_good_at": "100"})
    assert "Only for a set found past its limit: leave it out." in text_of(other)


def test_a_row_is_withdrawn_with_a_reason(at_desk: Client) -> None:
    row = entered()
    address = reverse("evidence-withdraw", args=[row.pk])

    at_desk.post(address, {f"row-{row.pk}-because": "", "basis": "miles"})
    assert not clutch().held
    at_desk.post(address, {f"row-{row.pk}-because": "It was another engine", "basis": "miles"})

    assert "It was another engine" in text_of(at_desk.get(LIFE))
    assert clutch().held == 1


def test_a_file_is_entered_as_a_whole_or_not_at_all(at_desk: Client) -> None:
    head = "Part,Engine type,Engine,Seen on,Found,Had run,In,Duty\n"
    good = f"{CLUTCH},four600,H4-1,2024-07-08,still sound,4000,miles,sprint\n"
    bad = f"{CLUTCH},four600,H4-2,2024-07-08,still sound,4000,hours,moon\n"

    page = hand_in(at_desk, head + good + bad)
    assert page.status_code == 422
    assert "line 3, Duty “moon” is not known" in text_of(page)
    assert not Evidence.objects.exists()

    hand_in(at_desk, head + good)
    assert Evidence.objects.get().engine_name == "H4-1"


def hand_in(client: Client, text: str) -> Any:
    file = SimpleUploadedFile("book.csv", text.encode())
    return client.post(reverse("lives-file"), {"file": file})


def test_ages_as_json_are_entered_one_row_each(at_desk: Client) -> None:
    words = (
        f'"component": "{CLUTCH}", "type_code": "four600", "engine": "book 7", "on": "2024-07-08", '
        '"unit": "mi", "duty": "sprint"'
    )
    page = hand_in(at_desk, f'{{{words}, "failures": [-1]}}')
    assert "failures.0" in text_of(page)

    hand_in(at_desk, f'{{{words}, "failures": [3100], "suspensions": [4000], "intervals": [[2000, 3900]]}}')

    assert set(Evidence.objects.values_list("engine_name", "outcome")) == {
        ("book 7, item 1", "failed"),
        ("book 7, item 2", "sound"),
        ("book 7, item 3", "past_limit"),
    }


def test_the_builder_looks_and_the_owner_alone_decides(client: Client) -> None:
    row = entered()
    client.force_login(builder())
    page = text_of(client.get(LIFE))

    assert "Proposed" in page
    assert "Approve for" not in page
    assert "Withdraw" not in page
    for address in (
        reverse("life-approve", args=[CLUTCH, "miles"]),
        reverse("evidence-withdraw", args=[row.pk]),
        reverse("lives-earlier"),
        reverse("lives-file"),
    ):
        assert client.post(address, approval()).status_code == 403
    for other in (desk, books):
        client.force_login(other())
        assert client.get(reverse("lives")).status_code == 403
        assert client.get(LIFE).status_code == 403


def test_a_life_that_there_is_not_is_not_found(at_desk: Client) -> None:
    for component, basis in (("oil", "miles"), (CLUTCH, "years"), ("no_such_part", "miles")):
        assert at_desk.get(reverse("life", args=[component, basis])).status_code == 404
    assert at_desk.get(LIFE, {"type": "v8"}).status_code == 404


def test_twenty_rows_cost_as_many_queries_as_one(at_desk: Client) -> None:
    entered()
    approved()
    entered(engine="H4-21127")
    addresses = (reverse("lives"), LIFE)
    few = [queries(lambda: at_desk.get(address)) for address in addresses]  # noqa: B023
    many(20)
    approved("four600")
    entered(engine="H4-3")

    assert [queries(lambda: at_desk.get(address)) for address in addresses] == few  # noqa: B023


def queries(ask: Callable[[], Any]) -> int:
    """After a first look, for the catalogue is kept ready from then on."""
    ask()
    with CaptureQueriesContext(connection) as counted:
        ask()
    return len(counted)
