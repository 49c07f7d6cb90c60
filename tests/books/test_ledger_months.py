"""Closed months, opening balances, and the settings of the books."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.books.bills import pay_bill
from quotes.actions.books.journal import refuse_closed
from quotes.actions.books.months import lock_month, open_month
from quotes.actions.books.opening import enter_opening
from quotes.actions.books.opening_rows import OpeningBill, OpeningDeposit, OpeningItem
from quotes.actions.books.refused_months import MonthClosed, MonthNotOver, OpeningEntered, OpeningOutOfBalance
from quotes.actions.books.settings import save_accounts, save_books_settings
from quotes.actions.books.write_off import write_off
from quotes.actions.refused import StaleDraft
from quotes.calc.books.values import AccountCode
from quotes.models import Acceptance, BooksSettings, JournalEntry, MonthLock, OpenItem, SupplierBill
from quotes.queries.books.chart import accounts_now, books_settings
from quotes.queries.books.customer_account import ages
from quotes.queries.books.deposits import deposits_held
from quotes.queries.books.months import month_to_close
from tests.books import cast
from tests.books.cast import GROSS, NOW, ON
from tests.books.ledger_cast import balance, billed, bounced, deposit, item_of, marel, paid, paid_back
from tests.cast import books, owner

pytestmark = pytest.mark.usefixtures("sound_ledger")

LATER = NOW + timedelta(days=70)
"""3 February 2027."""


def closed(*months: date) -> None:
    for month in months:
        lock_month(month=month, by=books(), now=LATER)


@pytest.mark.parametrize(
    ("months", "day", "free"),
    [
        ([date(2026, 11, 1)], date(2026, 11, 30), date(2026, 12, 1)),
        ([date(2026, 11, 1), date(2026, 12, 1)], date(2026, 11, 1), date(2027, 1, 1)),
        ([date(2026, 10, 1), date(2026, 12, 1)], date(2026, 10, 31), date(2026, 11, 1)),
    ],
)
def test_a_day_in_a_closed_month_is_refused_with_the_first_that_is_free(
    db: None, months: list[date], day: date, free: date
) -> None:
    closed(*months)

    with pytest.raises(MonthClosed, match=rf"first free day is 1 {free:%B %Y}") as refused:
        refuse_closed(day)
    assert (refused.value.day, refused.value.first_free) == (day, free)
    refuse_closed(free)


def test_nothing_is_dated_into_a_closed_month(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    payment, bill = paid(GROSS + 20), billed("4711")
    items = OpenItem.objects.count()
    closed(ON)

    tries: list[Callable[[], Any]] = [
        lambda: paid("1"),
        lambda: deposit(build, "1"),
        lambda: paid_back("20", from_item=item_of(payment)),
        lambda: bounced(payment),
        lambda: billed("4712"),
        lambda: pay_bill(bill=bill, on=ON, method="cash", by=books(), now=NOW),
        lambda: enter_opening(on=ON, amounts={"bank": Decimal(5)}, by=books(), now=NOW),
        lambda: cast.issue(cast.drafted(cast.build("H4-30518"))),
    ]
    for each in tries:
        with pytest.raises(MonthClosed):
            each()
    with pytest.raises(MonthClosed):
        bounced(payment, on=ON, now=LATER)
    assert OpenItem.objects.count() == items
    assert invoice.number == "I-2026-0001"


def test_what_is_written_off_is_not_dated_into_a_closed_month(build: Acceptance) -> None:
    item = item_of(cast.invoiced(build))
    closed(ON)

    with pytest.raises(MonthClosed):
        write_off(item=item, amount=Decimal(1), reason="Gone", on=ON, by=owner(), now=NOW)
    day = LATER.date()
    assert write_off(item=item, amount=Decimal(1), reason="Gone", on=day, by=owner(), now=LATER).on == day


def test_a_month_is_closed_once_and_only_when_it_is_over(db: None) -> None:
    closed(ON, ON)

    assert MonthLock.objects.get().month == date(2026, 11, 1)
    with pytest.raises(MonthNotOver, match="February 2027"):
        closed(LATER.date())
    assert lock_month(month=date(2027, 1, 31), by=books(), now=LATER).month == date(2027, 1, 1)


def test_a_closed_month_is_opened_in_writing_and_may_be_closed_again(db: None) -> None:
    closed(ON)
    with pytest.raises(ValidationError, match="Write why"):
        open_month(month=ON, because=" ", by=owner(), now=LATER)

    lock = open_month(month=ON, because="A bill came late", by=owner(), now=LATER)

    assert lock is not None
    assert (lock.opened_by, lock.opened_because) == ("Orla Venn", "A bill came late")
    refuse_closed(ON)
    assert open_month(month=ON, because="Again", by=owner(), now=LATER) is None
    closed(ON)
    assert MonthLock.objects.count() == 2


def test_the_month_to_close_is_the_oldest_with_entries_that_stands_open(db: None) -> None:
    for month in (8, 10, 11):
        entry = JournalEntry(
            on=date(2026, month, 5), source="other", text="Rent", total=Decimal(0), posted_at=NOW
        )
        entry.save()
    assert month_to_close(LATER.date()) == date(2026, 8, 1)

    closed(date(2026, 8, 1), date(2026, 10, 1))

    assert month_to_close(LATER.date()) == date(2026, 11, 1)
    assert month_to_close(date(2026, 11, 30)) is None


def begun(**change: Any) -> JournalEntry:
    fields: dict[str, Any] = {"on": ON, "amounts": {}, "by": books(), "now": NOW}
    return enter_opening(**(fields | change))


def test_the_books_begin_with_items_bills_deposits_and_money(build: Acceptance) -> None:
    since = date(2026, 9, 1)
    begun(
        amounts={"bank": Decimal(1000), "stock": Decimal(300), "opening": Decimal(970)},
        customers=[
            OpeningItem(marel(), "31", since, since + timedelta(days=30), Decimal(200)),
            OpeningItem(marel(), "12", since, None, Decimal(-80)),
        ],
        suppliers=[OpeningBill("Outside machine shop", "4711", since, None, Decimal(300))],
        deposits=[OpeningDeposit(build, Decimal(150))],
    )

    assert (balance("bank"), balance("receivables"), balance("payables")) == (1000, 120, -300)
    assert [f"{held.quote} {held.amount:.0f}" for held in deposits_held(ON)] == ["Q-2026-0001 150"]
    row = ages(ON).rows[0]
    assert f"{row.to_60:.0f} {row.credit:.0f}" == "200 -80"
    assert SupplierBill.objects.get().gross == 300


def test_what_was_open_then_is_paid_and_taken_off_like_any_other(build: Acceptance) -> None:
    begun(
        customers=[OpeningItem(marel(), "31", ON, ON, Decimal(200))],
        suppliers=[OpeningBill("Outside machine shop", "4711", ON, None, Decimal(300))],
        deposits=[OpeningDeposit(build, Decimal(150))],
    )

    paid("200")
    pay_bill(bill=SupplierBill.objects.get(), on=ON, method="transfer", by=books(), now=NOW)
    invoice = cast.invoiced(build)

    assert (balance("receivables"), balance("payables"), balance("deposits_held")) == (GROSS - 150, 0, 0)
    assert invoice.prepaid == 150


def test_balances_that_do_not_balance_are_refused_with_their_difference(build: Acceptance) -> None:
    with pytest.raises(
        OpeningOutOfBalance, match="Debits come to 1000 and credits to 990: they differ by 10"
    ):
        begun(
            amounts={"bank": Decimal(1000), "opening": Decimal(690)},
            suppliers=[OpeningBill("Outside machine shop", "4711", ON, None, Decimal(300))],
        )
    assert not SupplierBill.objects.exists()


def test_what_the_owner_has_put_in_is_what_the_others_leave(build: Acceptance) -> None:
    begun(amounts={"bank": Decimal(1000)})

    assert balance("opening") == -1000


def test_the_books_begin_once_on_a_day(build: Acceptance) -> None:
    begun(amounts={"bank": Decimal(1000)})

    with pytest.raises(OpeningEntered):
        begun(amounts={"bank": Decimal(1000)})


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("receivables", {"amounts": {"receivables": Decimal(5)}}),
        ("payables", {"amounts": {"payables": Decimal(5)}}),
        ("gold", {"amounts": {"gold": Decimal(5)}}),
        ("bank", {"amounts": {"bank": Decimal("0.001")}}),
        ("on", {"on": ON + timedelta(days=1)}),
    ],
)
def test_what_cannot_begin_the_books_is_refused_at_its_field(
    build: Acceptance, field: str, change: dict[str, Any]
) -> None:
    with pytest.raises(ValidationError) as refused:
        begun(**change)

    assert list(refused.value.message_dict) == [field]


def kept(version: int = 0, **fields: Any) -> BooksSettings:
    return save_books_settings(fields=fields, expected_version=version, by=books(), now=NOW)


def test_settings_are_kept_with_who_kept_them(db: None) -> None:
    row = kept(payment_days=14, iban="DE75 5121 0800 1245 1261 99")

    assert (row.version, row.changed_by, row.iban) == (1, "Bea Marrow", "DE75512108001245126199")
    assert books_settings().payment_days == 14


def test_settings_that_somebody_else_has_changed_are_not_overwritten(db: None) -> None:
    kept(payment_days=14)

    with pytest.raises(StaleDraft) as refused:
        kept(payment_days=30)
    assert [(one.what, one.before, one.after) for one in refused.value.changes] == [
        ("payment_days", "14", "30")
    ]
    assert kept(payment_days=14).version == 1


@pytest.mark.parametrize(
    "fields",
    [
        {"iban": "DE75512108001245126190"},
        {"bic": "NOBANK"},
        {"late_pct_a_year": Decimal(101)},
        {"series": "x"},
    ],
)
def test_settings_that_cannot_be_are_refused_at_their_field(db: None, fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError) as refused:
        kept(**fields)

    assert list(refused.value.message_dict) == list(fields)


def test_one_series_through_the_years_has_no_year_in_its_numbers(build: Acceptance) -> None:
    kept(series="kind")

    assert (paid("1").number, cast.invoiced(build).number) == ("R-00001", "I-00001")


def code(role: Any, code: str, name: str = "Sales of work") -> AccountCode:
    return AccountCode(role=role, code=code, name=name)


def test_the_shops_own_codes_are_posted_and_those_posted_before_stay(build: Acceptance) -> None:
    paid("1")
    save_accounts(accounts=[code("bank", "1200", "House bank")], by=books(), now=NOW)
    paid("1")

    assert accounts_now()["bank"].name == "House bank"
    assert accounts_now()["cash"].code == "1010"
    lines = JournalEntry.objects.order_by("pk").values_list("lines__account", flat=True)
    assert [each for each in lines if each in ("1000", "1200")] == ["1000", "1200"]


@pytest.mark.parametrize(
    "accounts",
    [
        [code("bank", "1"), code("cash", "1")],
        [code("bank", "=1+1")],
        [code("bank", "")],
        [code("bank", "1", "")],
    ],
)
def test_codes_that_would_mix_accounts_up_are_refused(db: None, accounts: list[AccountCode]) -> None:
    with pytest.raises(ValidationError):
        save_accounts(accounts=accounts, by=books(), now=NOW)
    assert accounts_now()["bank"].code == "1000"
