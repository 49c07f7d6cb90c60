"""Exports, months, opening balances and the settings of the books on their pages."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes.actions.books import batches
from quotes.actions.books.batch_runs import run_batch
from quotes.actions.books.batches import start_batch
from quotes.models import Acceptance, BooksAccount, BooksSettings, ExportBatch, JournalEntry, MonthLock
from quotes.queries.books.balances import trial_balance
from tests.books.books_pages import ago, bill, browser, day, invoiced
from tests.books.page_forms import form_of, text_of, typed
from tests.cast import books

IBAN = "DE74123456780000000042"


def made() -> ExportBatch:
    """Everything new, exported by the page."""
    browser().post(reverse("export-new"), {})
    return ExportBatch.objects.latest("pk")


def test_an_export_is_looked_at_first(build: Acceptance) -> None:
    invoiced(build)
    bill()

    page = text_of(browser().get(reverse("export-new")))

    assert "3 entries, " in page
    assert "Debits are credits: 3,680.88" in page
    assert not ExportBatch.objects.exists()


def test_only_the_period_that_was_looked_at_is_exported(build: Acceptance) -> None:
    invoiced(build, days=60)
    bill(days=5)

    browser().post(reverse("export-new"), {"first": day(70).isoformat(), "last": day(50).isoformat()})

    assert ExportBatch.objects.get().entries_held == 2  # the invoice and its cost
    assert JournalEntry.objects.not_exported().count() == 1


def test_the_files_of_a_batch_are_the_same_bytes_each_time(build: Acceptance) -> None:
    invoiced(build)
    batch = made()

    for name in ("export-workbook", "export-csv"):
        first, again = (browser().get(reverse(name, args=[batch.pk])) for _ in range(2))
        assert first.content == again.content
        assert batch.number in first["Content-Disposition"]


def test_the_control_totals_stand_on_the_page(build: Acceptance) -> None:
    invoiced(build)

    page = text_of(browser().get(reverse("export", args=[made().pk])))

    assert "agrees Sales with tax frozen documents 3,186.48 journal 3,186.48" in page


def test_after_that_there_is_nothing_new(build: Acceptance) -> None:
    invoiced(build)
    batch = made()

    page = browser().get(reverse("export-new"))

    assert f"Nothing new since {batch.number}" in text_of(page)
    assert "Export all new" not in text_of(page)
    assert "No batch was made." in text_of(browser().post(reverse("export-new"), {}))


def test_while_a_batch_is_made_the_page_shows_how_far_it_is(
    build: Acceptance, monkeypatch: pytest.MonkeyPatch
) -> None:
    invoiced(build)
    batch = start_batch(by=books(), now=ago(1))

    page = browser().get(reverse("export", args=[batch.pk])).content.decode()
    assert f'hx-get="{reverse("export-state", args=[batch.pk])}"' in page
    assert f'<progress id="export-progress" max="{batch.lines_held}" value="0">' in page
    assert f"Make {batch.number} again" in page

    run_batch(batch)
    assert "hx-get" not in browser().get(reverse("export-state", args=[batch.pk])).content.decode()


def test_a_batch_that_failed_says_why_and_offers_no_file(
    build: Acceptance, monkeypatch: pytest.MonkeyPatch
) -> None:
    invoiced(build)
    with monkeypatch.context() as broken:
        broken.setattr(batches, "what_differs", lambda *given: "Sales: apart by 0.01.")
        batch = made()

    page = browser().get(reverse("export", args=[batch.pk]))
    assert "no file is offered: Sales: apart by 0.01." in text_of(page)
    assert browser().get(reverse("export-csv", args=[batch.pk])).status_code == 404

    browser().post(reverse("export-again", args=[batch.pk]))
    assert browser().get(reverse("export-csv", args=[batch.pk])).status_code == 200


def last_month() -> date:
    return (day().replace(day=1) - timedelta(days=1)).replace(day=1)


def closed(month: date) -> Any:
    return browser().post(reverse("month-close"), {"month": f"{month:%Y-%m}"}, follow=True)


def test_a_closed_month_takes_no_more_bills(build: Acceptance) -> None:
    bill(days=day().day)  # on the last day of the month before
    closed(last_month())

    page = browser().get(reverse("bill-new"))
    sent = typed(
        page,
        "",
        bill__supplier="Fenwright Parts",
        bill__supplier_number="2",
        bill__on=last_month().isoformat(),
        bill__tax="0",
        bill__gross="1",
        line__0__description="Rings",
        line__0__net="1",
        more=None,
    )
    answer = browser().post(reverse("bill-new"), sent)

    fault = answer.content.decode().partition('id="id_bill-on_error">')[2].partition("</p>")[0]
    assert "is in a month that is closed" in fault


def test_a_month_that_is_not_over_is_not_closed(build: Acceptance) -> None:
    assert "is not over yet" in text_of(closed(day()))
    assert not MonthLock.objects.exists()


def test_the_owner_opens_a_month_again_in_writing(build: Acceptance) -> None:
    bill(days=day().day)
    closed(last_month())
    owner = browser("owner")
    sent = form_of(owner.get(reverse("months")), "open/")

    told = owner.post(reverse("month-open"), sent | {"because": ""})
    assert 'id="id_because_error">Nothing is given.' in told.content.decode()
    assert MonthLock.objects.standing().exists()

    page = owner.post(reverse("month-open"), sent | {"because": "A bill came late"}, follow=True)
    assert "A bill came late" in text_of(page)
    assert not MonthLock.objects.standing().exists()


@pytest.mark.both_databases
@pytest.mark.parametrize("typed_month", ["November", "2026-13", "", "2026-11\x00"])
def test_a_month_that_is_none_is_told(build: Acceptance, typed_month: str) -> None:
    answer = browser().post(reverse("month-close"), {"month": typed_month})

    assert answer.status_code == 200
    assert 'class="err"' in answer.content.decode()


def opening(**change: str | None) -> Any:
    page = browser().get(reverse("opening"))
    told = {"on": day(30).isoformat(), "balance__bank": "1000", "more": None} | change
    return browser().post(reverse("opening"), typed(page, "", **told))


def test_opening_balances_are_entered_with_what_customers_owed(build: Acceptance) -> None:
    answer = opening(
        customers__0__customer="Marel Otten",
        customers__0__number="OLD-7",
        customers__0__on=day(40).isoformat(),
        customers__0__amount="250",
    )

    entry = JournalEntry.objects.get(source="opening")
    assert answer["Location"] == reverse("journal-entry", args=[entry.pk])
    balance = trial_balance(day())
    assert (balance.balance_of("receivables"), balance.balance_of("opening")) == (
        Decimal(250),
        Decimal(-1250),
    )


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"on": ""}, "a day is needed"),
        ({"balance__bank": "lots"}, "“lots” is not a number"),
        ({"balance__opening": "900"}, "Debits come to 1000"),
        ({"customers__0__customer": "Nobody"}, "“Nobody” is nobody in our book"),
        ({"customers__0__number": "OLD-7"}, "Nothing is given: customer is needed."),
        ({"deposits__0__build": "Q-9", "deposits__0__amount": "5"}, "“Q-9” is no accepted quote"),
    ],
)
def test_opening_balances_that_can_not_be_kept_are_told(
    build: Acceptance, change: dict[str, str], said: str
) -> None:
    answer = opening(**change)

    assert said in text_of(answer)
    assert "value=" in answer.content.decode()
    assert not JournalEntry.objects.exists()


def settings(**change: str | None) -> Any:
    page = browser().get(reverse("accounts"))
    return browser().post(reverse("accounts"), typed(page, "accounts/", **change))


def test_the_account_is_kept_without_its_blanks(build: Acceptance) -> None:
    settings(iban="de74 1234 5678 0000 0000 42", bic="sory de 21")

    row = BooksSettings.objects.get()
    assert (row.iban, row.bic) == (IBAN, "SORYDE21")


@pytest.mark.parametrize(
    ("change", "place", "said"),
    [
        ({"iban": "DE75 1234 5678 0000 0000 42"}, "iban", "its check figures do not fit the rest"),
        ({"iban": "XQ74"}, "iban", "can't be it"),
        ({"bic": "SORY"}, "bic", "it has the wrong length"),
        ({"bic": "1234DE21"}, "bic", "letters and figures do not stand where they belong"),
        ({"iban": IBAN, "bic": "SORYFR21"}, "bic", "a bank's in FR, but the IBAN is of DE"),
        ({"payment_days": "400"}, "payment_days", "“400” is not a number from 0 to 365"),
        ({"late_pct_a_year": "-1"}, "late_pct_a_year", "“-1” is not a number from 0 to 100"),
        ({"country": "XX"}, "country", "“XX” is not one of"),
        ({"account__code_bank": "1010"}, "account-code_bank", "stands here 2 times"),
        ({"account__code_bank": "=1"}, "account-code_bank", "would be a formula"),
        ({"account__name_bank": ""}, "account-name_bank", "Nothing is given."),
    ],
)
def test_a_setting_that_can_not_be_kept_is_told_at_its_field(
    build: Acceptance, change: dict[str, str], place: str, said: str
) -> None:
    answer = settings(**change)

    page = answer.content.decode().replace("&#x27;", "'")
    assert said in page.partition(f'id="id_{place}_error">')[2].partition("</p>")[0]
    assert not BooksAccount.objects.exists()
    assert BooksSettings.objects.filter(iban=IBAN).count() == 0


def test_the_shops_own_codes_stand_on_what_is_posted_from_then_on(build: Acceptance) -> None:
    settings(account__code_receivables="1400-D", account__name_receivables="Debtors")

    invoiced(build)

    assert "1400-D Debtors" in text_of(browser().get(reverse("trial-balance")))


def test_of_two_at_once_the_second_sees_what_the_first_kept(build: Acceptance) -> None:
    mine = browser().get(reverse("accounts"))
    settings(payment_days="21")

    answer = browser().post(reverse("accounts"), typed(mine, "accounts/", payment_days="14"))

    assert "Where the two differ" in text_of(answer)
    assert BooksSettings.objects.get().payment_days == 21


def test_one_entry_and_ten_cost_the_same_queries(
    build: Acceptance, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    bill("one", due=1)
    made()
    bill("two", due=1)
    client = browser()
    for name, cost in COST.items():
        with django_assert_num_queries(cost):
            client.get(reverse(name))
    for index in range(5):
        bill(f"N-{index}", due=1, tax=Decimal(index))
        made()
        bill(f"M-{index}", due=1)
    for name, cost in COST.items():
        with django_assert_num_queries(cost):
            client.get(reverse(name))


COST = {"books-home": 14, "months": 6, "export-list": 7, "export-new": 8}
