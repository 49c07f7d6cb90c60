"""Interest and storage as the terms ask for them, with their working."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.books.late import LateItem, interest_lines, storage_line
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.values import Late

DUE = date(2026, 1, 10)
TERMS = Late(rate_pct_a_year=Decimal(8), after_days=14)


def item(amount: str = "1000.00", **change: Any) -> LateItem:
    fields: dict[str, Any] = {"number": "I-2026-0001", "due_on": DUE, "late": TERMS}
    return LateItem(amount=Decimal(amount), **(fields | change))


def interest(of: LateItem, days: int, decimals: int = 2) -> DraftLine | None:
    """On the day so many days after the day of payment."""
    lines = interest_lines([of], DUE + timedelta(days=days), decimals, "exempt")
    return lines[0] if lines else None


def asked(of: LateItem, days: int) -> Decimal:
    line = interest(of, days)
    return line.unit_price if line else Decimal(0)


@pytest.mark.parametrize(
    ("days", "sum_of"),
    [(0, "0"), (14, "0"), (15, "0.22"), (45, "6.79"), (14 + 365, "80.00"), (14 + 730, "160.00")],
)
def test_interest_is_simple_by_the_day_once_grace_is_over(days: int, sum_of: str) -> None:
    # 1,000 at 8 per cent: 0.2192 a day, 31 days 6.7945, 365 days 80.
    assert asked(item(), days) == Decimal(sum_of)


def test_the_working_is_said_in_words() -> None:
    line = interest(item(), 45)

    assert line is not None
    assert line.description == "Interest on I-2026-0001, which was to be paid by 10 January 2026"
    assert line.note == (
        "1,000.00 for 31 days at 8 % a year, after 14 days of grace: "
        "1,000.00 \N{MULTIPLICATION SIGN} 31 ÷ 365 \N{MULTIPLICATION SIGN} 8 % = 6.79."
    )


def test_a_part_payment_lowers_what_bears_interest_from_its_day() -> None:
    paid = item(settled=((DUE + timedelta(days=24), Decimal("600.00")),))

    # 1,000 for 10 days and 400 for 21: 18,400 x 0.08 / 365
    assert asked(paid, 45) == Decimal("4.03")
    line = interest(paid, 45)
    assert line is not None
    assert line.note.startswith("1,000.00 for 10 days and 400.00 for 21 days at 8 % a year")


def test_what_was_paid_within_grace_bears_none() -> None:
    assert asked(item(settled=((DUE + timedelta(days=14), Decimal("1000.00")),)), 60) == 0


def test_paid_late_in_full_it_has_borne_interest_until_then() -> None:
    assert asked(item(settled=((DUE + timedelta(days=45), Decimal("1000.00")),)), 90) == Decimal("6.79")


def test_a_cheque_that_bounced_bears_interest_again() -> None:
    bounced = ((DUE + timedelta(days=5), Decimal(1000)), (DUE + timedelta(days=24), Decimal(-1000)))

    assert asked(item(settled=bounced), 55) == Decimal("6.79")


def test_what_was_asked_for_once_is_not_asked_for_again() -> None:
    again = item(asked_up_to=DUE + timedelta(days=30))

    assert asked(again, 30) == 0
    assert asked(again, 61) == Decimal("6.79")


def test_terms_without_a_rate_ask_for_nothing() -> None:
    assert asked(item(late=Late()), 400) == 0


def test_the_sum_is_rounded_once_to_the_coins_of_the_currency() -> None:
    line, yen = interest(item(), 45, 3), interest(item("100000"), 45, 0)

    assert line is not None
    assert yen is not None
    assert (line.unit_price, yen.unit_price) == (Decimal("6.795"), Decimal(679))


def test_a_working_of_many_stretches_is_said_in_short() -> None:
    paid = item(settled=tuple((DUE + timedelta(days=14 + day), Decimal(1)) for day in range(1, 200)))
    line = interest(paid, 400)

    assert line is not None
    assert line.note.startswith("What was open on each of 386 days at 8 % a year = ")


@given(st.lists(st.tuples(st.integers(-20, 300), st.integers(1, 100)), max_size=6), st.integers(0, 300))
def test_asked_in_two_goes_it_is_the_same_to_a_coin(paid: list[tuple[int, int]], until: int) -> None:
    settled = tuple((DUE + timedelta(days=day), Decimal(amount)) for day, amount in paid)
    whole = asked(item(settled=settled), 300)
    first = asked(item(settled=settled), until)
    rest = asked(item(settled=settled, asked_up_to=DUE + timedelta(days=until)), 300)

    assert abs(whole - first - rest) <= Decimal("0.01")


def storage(days: int, **change: Any) -> DraftLine | None:
    fields: dict[str, Any] = {
        "build": "Q-2026-0001",
        "ready_on": DUE,
        "on": DUE + timedelta(days=days),
        "free_days": 14,
        "a_day": Decimal("10.00"),
        "decimals": 2,
        "tax_code": "standard",
    }
    return storage_line(**(fields | change))


@pytest.mark.parametrize(("days", "charged"), [(0, 0), (14, 0), (15, 1), (20, 6)])
def test_storage_is_by_the_day_once_the_free_days_are_over(days: int, charged: int) -> None:
    line = storage(days)

    assert (line.quantity if line else 0) == charged


def test_the_working_of_storage_is_said_in_words() -> None:
    line = storage(20)

    assert line is not None
    assert line.note == "20 days, 14 days of them free: 6 \N{MULTIPLICATION SIGN} 10.00 = 60.00."


def test_storage_goes_on_from_where_it_was_asked_for() -> None:
    line = storage(40, asked_up_to=DUE + timedelta(days=20))

    assert line is not None
    assert line.quantity == 20
    assert storage(20, asked_up_to=DUE + timedelta(days=20)) is None


def test_terms_without_a_charge_ask_for_no_storage() -> None:
    assert storage(99, a_day=Decimal(0)) is None
