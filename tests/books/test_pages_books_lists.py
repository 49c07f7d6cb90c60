"""Journal, overdue, statement, trial balance and margin: found, sorted, taken away, at a fixed cost."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from typing import Any

import pytest
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes.actions.books.settings import save_books_settings
from quotes.models import Acceptance, InvoiceDraft, JournalEntry, OpenItem
from quotes.queries.books.balances import trial_balance
from quotes.views.books import overdue
from tests.books import cast
from tests.books.books_pages import ago, bill, browser, day, invoiced
from tests.books.ledger_cast import paid
from tests.books.page_forms import text_of
from tests.cast import owner
from tests.drawn_alike import as_library_draws
from tests.quotes.cast import customer

TIMES = "\N{MULTIPLICATION SIGN}"


def taken_away(name: str, **asked: str) -> list[dict[str, str]]:
    answer = browser("owner").get(reverse(name), asked | {"as": "csv"})
    return list(csv.DictReader(io.StringIO(answer.content.decode("utf-8-sig"))))


def shown(name: str, **asked: str) -> list[Any]:
    answer = browser("owner").get(reverse(name), asked)
    return [row.record for row in answer.context["table"].paginated_rows]


@pytest.fixture
def late_terms(build: Acceptance) -> Acceptance:
    """Eight per cent a year, from the day after payment was due, which is at once."""
    save_books_settings(
        fields={"late_pct_a_year": Decimal(8), "late_after_days": 0},
        expected_version=0,
        by=owner(),
        now=ago(100),
    )
    return build


def test_each_entry_of_the_journal_leads_to_its_document(build: Acceptance) -> None:
    invoice, entered = invoiced(build), bill()
    payment = paid("100")

    page = browser().get(reverse("journal")).content.decode()

    for name, document in (("invoice", invoice), ("bill", entered), ("payment", payment)):
        assert f'<a href="{reverse(name, args=[document.pk])}">{document.number}</a>' in page


def test_every_cell_is_drawn_as_the_library_draws_it(build: Acceptance) -> None:
    """A draft has no document, and this one no build: a path that leads nowhere is drawn as well."""
    draft = invoiced(build).draft
    draft.pk, draft.build = None, None
    draft.save()
    bill()
    paid("100")

    for name in ("invoice-list", "payment-list", "bill-list", "journal", "overdue"):
        table = browser("owner").get(reverse(name)).context["table"]
        assert len(table.paginated_rows), name
        assert table.drawn() == as_library_draws(table), name


@pytest.mark.parametrize(
    ("asked", "sources"),
    [
        ({"source": "bill"}, {"bill"}),
        ({"q": "fenwright"}, {"bill"}),
        ({"account": "1100"}, {"invoice"}),
        ({"build": "Q-2026-0001"}, {"invoice"}),
        ({"exported": "yes"}, set()),
        ({"first": "1999-01-01", "last": "1999-12-31"}, set()),
    ],
)
def test_the_journal_is_narrowed(build: Acceptance, asked: dict[str, str], sources: set[str]) -> None:
    invoiced(build)
    bill()

    assert {entry.source for entry in shown("journal", **asked)} == sources


def test_a_day_that_is_none_is_told_with_what_was_typed(build: Acceptance) -> None:
    bill()

    answer = browser().get(reverse("journal"), {"first": "5 May"})

    assert "“5 May” is not a day, such as 2026-12-24." in text_of(answer)


def test_an_entry_shows_both_sides_and_that_they_agree(build: Acceptance) -> None:
    invoice = invoiced(build)
    entry = JournalEntry.objects.get(invoice=invoice)

    page = text_of(browser().get(reverse("journal-entry", args=[entry.pk])))

    assert "1100 Customers" in page
    assert "Together 3,186.48 3,186.48" in page
    assert "Debits are credits." in page


def test_the_trial_balance_is_nought_and_says_so(build: Acceptance) -> None:
    invoiced(build)
    paid("186.48")

    page = text_of(browser().get(reverse("trial-balance")))

    assert "the total is zero" in page
    assert "1100 Customers 3,186.48 186.48 3,000.00" in page
    last = taken_away("trial-balance")[-1]
    assert (last["Name"], Decimal(last["Balance"])) == ("Together", Decimal(0))


def test_the_trial_balance_of_an_earlier_day_leaves_out_what_came_later(build: Acceptance) -> None:
    invoiced(build, days=10)

    page = browser().get(reverse("trial-balance"), {"on": day(11).isoformat()})

    assert "No entries up to" in text_of(page)
    assert trial_balance(day(9)).debits == Decimal("3186.48")


@pytest.mark.parametrize(
    ("days", "word"),
    [
        (0, "not yet due"),
        (1, "1 to 30 days"),
        (30, "1 to 30 days"),
        (31, "31 to 60 days"),
        (91, "over 90 days"),
    ],
)
def test_what_is_owed_stands_under_its_age(build: Acceptance, days: int, word: str) -> None:
    invoiced(build, days=days)

    (row,) = taken_away("overdue")

    assert (row["State"], row["Days late"], row["Open"]) == (word, str(days), "3186.48")


@pytest.mark.parametrize(
    ("age", "found"),
    [("overdue", 1), ("to_60", 1), ("to_30", 0), ("to_90", 0), ("not_due", 0), ("over_90", 0)],
)
def test_the_overdue_list_is_narrowed_by_age(build: Acceptance, age: str, found: int) -> None:
    invoiced(build, days=60)

    assert len(shown("overdue", age=age)) == found


def test_interest_is_proposed_with_its_working_and_drafted_only_by_a_press(late_terms: Acceptance) -> None:
    invoice = invoiced(late_terms, days=73)

    page = browser().get(reverse("overdue"))

    # 3,186.48 times 8 per cent times a fifth of a year
    assert f"3,186.48 {TIMES} 73 ÷ 365 {TIMES} 8 % = 50.98" in text_of(page)
    assert not InvoiceDraft.objects.open().exists()

    browser().post(reverse("overdue-interest", args=[invoice.item.pk]))

    draft = InvoiceDraft.objects.open().get()
    assert draft.content["lines"][0]["kind"] == "interest"


def test_no_interest_is_drafted_where_the_terms_ask_for_none(build: Acceptance) -> None:
    invoice = invoiced(build)

    answer = browser().post(reverse("overdue-interest", args=[invoice.item.pk]))

    assert answer.status_code == 404


def test_who_owes_stands_page_by_page_under_the_sum_of_all(
    build: Acceptance, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(overdue, "PER_PAGE", 1)
    invoiced(build)
    other = customer("Nell Arden")
    five = Decimal(5)
    OpenItem.objects.create(
        kind="opening", customer=other, number="O-1", on=day(9), amount=five, open_amount=five
    )

    first, second = (browser().get(reverse("overdue"), {"customers": page}) for page in (1, 2))

    assert [row.customer for row in first.context["customers"]] == [build.quote.customer.name]
    assert [row.customer for row in second.context["customers"]] == ["Nell Arden"]
    assert first.context["ages"].total.total == second.context["ages"].total.total == Decimal("3191.48")
    assert 'href="?customers=2"' in first.content.decode()


def test_a_statement_runs_from_one_balance_to_the_next(build: Acceptance) -> None:
    invoice = invoiced(build, days=30)
    paid("186.48", on=day(3))
    address = reverse("statement", args=[build.quote.customer_id])

    page = text_of(browser().get(address, {"first": day(10).isoformat(), "last": day(0).isoformat()}))

    assert "Marel Otten owes €3,000.00" in page
    assert f"Balance before {_said(10)} 3,186.48" in page
    assert f"Invoice {invoice.number}" not in page


def _said(days: int) -> str:
    on = day(days)
    return f"{on.day} {on:%b} {on.year}"


def test_a_period_that_ends_before_it_begins_is_told_at_its_field(build: Acceptance) -> None:
    address = reverse("statement", args=[build.quote.customer_id])

    page = browser().get(address, {"first": "2026-03-01", "last": "2026-02-01"}).content.decode()

    assert 'id="id_last_error">“2026-02-01” is before 2026-03-01' in page
    assert 'value="2026-02-01"' in page


def test_the_margin_shows_the_last_year_unless_asked_for_more(build: Acceptance) -> None:
    invoiced(build, days=500)
    again = cast.build("H4-20418")
    invoiced(again, days=100)

    assert [row.build_id for row in shown("margin")] == [again.pk]
    assert {row.build_id for row in shown("margin", first="")} == {build.pk, again.pk}


def test_the_margin_sets_cost_against_what_was_invoiced(build: Acceptance) -> None:
    invoiced(build)
    bill(build=build)

    (row,) = taken_away("margin")

    assert (row["Build"], row["Invoiced"], row["Cost"]) == ("Q-2026-0001", "2655.40", "412.00")
    assert (row["Margin"], row["Margin, per cent"]) == ("2243.40", "84.5")
    assert shown("margin", q="nobody") == []
    assert len(shown("margin", q="otten")) == 1


def test_one_row_and_five_cost_the_same_queries(
    late_terms: Acceptance, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    invoiced(late_terms)
    client = browser("owner")
    for name, cost in COST.items():
        with django_assert_num_queries(cost):
            client.get(reverse(name))
    for index in range(4):
        invoiced(cast.build(f"E-{index}"))
    for name, cost in COST.items():
        with django_assert_num_queries(cost):
            client.get(reverse(name))


COST = {"journal": 8, "overdue": 19, "margin": 21}
