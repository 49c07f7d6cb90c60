"""The list of quotes: found, narrowed, sorted, in pages, taken away, at a fixed number of queries."""

from __future__ import annotations

import csv
import io
from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries
from python_calamine import CalamineWorkbook

from quotes.models import Engine, Quote
from quotes.tables import ordered
from quotes.tables.quotes import QuoteTable
from tests.cast import books, builder, desk, owner
from tests.quotes import cast

NOW = timezone.now()


@pytest.fixture
def signed_in(client: Client, workshop: object) -> Client:
    client.force_login(desk())
    return client


def shown(client: Client, **asked: str) -> list[str]:
    """Titles of the quotes on the page, from the top."""
    response = client.get(reverse("quote-list"), asked)
    assert response.status_code == 200
    return [row.record.title for row in response.context["table"].paginated_rows]


def quotes(count: int, *, name: str = "Customer") -> list[Quote]:
    """So many drafts, each of its own customer and engine, issued one by one."""
    made = []
    for index in range(count):
        mark = chr(ord("a") + index) * 3
        of = cast.engine(cast.customer(f"{name} {mark}"), f"E-{mark}")
        quote = cast.draft(of)
        cast.issued(quote, now=NOW)
        made.append(quote)
    return made


def test_a_list_without_quotes_says_what_to_do_first(signed_in: Client) -> None:
    page = signed_in.get(reverse("quote-list")).content.decode()

    assert "No quotes yet." in page
    assert reverse("new-quote") in page


def test_the_newest_stands_first(signed_in: Client) -> None:
    quotes(2)

    assert shown(signed_in) == [f"Q-{NOW.year}-0002", f"Q-{NOW.year}-0001"]


@pytest.mark.parametrize("typed", ["0002", "customer bbb", "CUSTOMER  Bbb", "E-bbb", "ebbb"])
def test_a_quote_is_found_by_number_customer_or_engine(signed_in: Client, typed: str) -> None:
    quotes(3)

    assert shown(signed_in, q=typed) == [f"Q-{NOW.year}-0002"]


def test_accents_and_case_do_not_hide_a_customer(signed_in: Client) -> None:
    quotes(1, name="Zoë Šafář")

    assert shown(signed_in, q="zoe SAFAR") == [f"Q-{NOW.year}-0001"]


def test_every_state_can_be_asked_for(signed_in: Client, engine: Engine) -> None:
    draft = cast.draft(engine)
    first, _ = quotes(2)
    cast.accepted(Quote.objects.get(pk=first.pk).latest, now=NOW)  # type: ignore[arg-type]

    assert shown(signed_in, state="draft") == [draft.title]
    assert shown(signed_in, state="accepted") == [f"Q-{NOW.year}-0001"]
    assert shown(signed_in, state="issued") == [f"Q-{NOW.year}-0002"]
    assert shown(signed_in, state="lapsed") == []


def test_an_unknown_state_is_told_and_shows_nothing_false(signed_in: Client) -> None:
    quotes(1)

    page = signed_in.get(reverse("quote-list"), {"state": "burnt"}).content.decode()

    assert "burnt is not one of the available choices" in page


@pytest.mark.parametrize("typed", ["a\x00b", "x" * 10_000], ids=["NUL", "long"])
def test_a_search_that_can_not_be_is_told(signed_in: Client, typed: str) -> None:
    quotes(1)

    response = signed_in.get(reverse("quote-list"), {"q": typed})

    assert response.status_code == 200
    assert response.context["filter"].form.errors["q"]


@pytest.mark.parametrize(
    ("sort", "first"),
    [
        ("customer", "0001"),
        ("-customer", "0003"),
        ("-title", "0003"),
        ("engine", "0001"),
        ("gross_from", "0001"),
        ("-gross_to", "0003"),
    ],
)
def test_it_sorts_by_a_column(signed_in: Client, sort: str, first: str) -> None:
    quotes(3)

    assert shown(signed_in, sort=sort)[0] == f"Q-{NOW.year}-{first}"


def test_drafts_without_a_sum_stand_last_either_way(signed_in: Client, engine: Engine) -> None:
    draft = cast.draft(engine)
    quotes(1)

    assert shown(signed_in, sort="gross_from")[-1] == draft.title
    assert shown(signed_in, sort="-gross_from")[-1] == draft.title


@pytest.mark.parametrize("far", [1, 1000], ids=["from either end", "from the first"])
@pytest.mark.parametrize("down", ["", "-"])
def test_pages_of_a_list_by_sum_are_the_list_cut_up(
    signed_in: Client, engine: Engine, down: str, far: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ordered, "FAR", far)
    quotes(5)
    of = engine.customer
    without = [cast.draft(cast.engine(of, f"F-{place}")).pk for place in range(3)][::-1]
    given = Quote.objects.exclude(latest=None).order_by("latest__gross_to", "pk")
    sorted_up = [quote.pk for quote in given]
    rows = Quote.objects.listed(NOW.date())
    data = QuoteTable(ordered.Ordered(rows), engine_types={}, order_by=f"{down}gross_to").data

    cut_up = [quote.pk for start in range(0, 8, 2) for quote in data[start : start + 2]]

    assert cut_up == (sorted_up[::-1] if down else sorted_up) + without


def test_a_page_holds_twenty_five_and_the_next_the_rest(signed_in: Client) -> None:
    quotes(27)

    assert len(shown(signed_in)) == 25
    assert shown(signed_in, page="2") == [f"Q-{NOW.year}-0002", f"Q-{NOW.year}-0001"]


def test_what_is_narrowed_is_what_is_taken_away(signed_in: Client) -> None:
    quotes(3)

    response = signed_in.get(reverse("quote-list"), {"q": "customer bbb", "as": "csv"})

    heads, *rows = csv.reader(io.StringIO(response.content.decode("utf-8-sig")))
    assert heads[:3] == ["Quote", "State", "Customer"]
    assert [row[:3] for row in rows] == [[f"Q-{NOW.year}-0002", "issued", "Customer bbb"]]


def test_the_workbook_holds_sums_as_numbers_and_days_as_days(signed_in: Client) -> None:
    quotes(1)
    revision = Quote.objects.get().latest
    assert revision is not None

    content = signed_in.get(reverse("quote-list"), {"as": "xlsx"}).content

    heads, row = CalamineWorkbook.from_filelike(io.BytesIO(content)).get_sheet_by_index(0).to_python()
    cells = dict(zip(heads, row, strict=True))
    assert cells["From"] == float(revision.gross_from)
    assert cells["Stands until"] == revision.valid_until
    assert isinstance(cells["Stands until"], date)


def test_a_customer_named_like_a_formula_stays_text_in_the_file(signed_in: Client) -> None:
    quotes(1, name="=1+1")

    response = signed_in.get(reverse("quote-list"), {"as": "csv"})

    assert "'=1+1 aaa" in response.content.decode("utf-8-sig")


@pytest.mark.parametrize("count", [1, 20])
def test_one_quote_and_twenty_cost_the_same_queries(
    signed_in: Client, count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    quotes(count)

    with django_assert_num_queries(8):
        signed_in.get(reverse("quote-list"))


@pytest.mark.parametrize("person", [owner, desk, builder, books])
def test_everybody_of_the_workshop_may_see_the_list(client: Client, workshop: object, person: object) -> None:
    client.force_login(person())  # type: ignore[operator]

    assert client.get(reverse("quote-list")).status_code == 200


def test_a_quote_that_was_issued_long_ago_is_lapsed(signed_in: Client, engine: Engine) -> None:
    cast.issued(cast.draft(engine), now=NOW - timedelta(days=60))

    assert len(shown(signed_in, state="lapsed")) == 1
