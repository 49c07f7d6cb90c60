"""What is owed by age, at each boundary."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.books.ages import OwedItem, age_of, aged
from tests.calc.invoice.plain import said as figures

ON = date(2026, 11, 25)


def item(past: int, amount: str = "100", customer: str = "Marel Otten", **change: Any) -> OwedItem:
    due = ON - timedelta(days=past)
    fields: dict[str, Any] = {"customer_id": len(customer), "number": f"I-{past}", "on": due, "due_on": due}
    return OwedItem(customer=customer, amount=Decimal(amount), **(fields | change))


@pytest.mark.parametrize(
    ("past", "column"),
    [
        (-30, "not_due"),
        (0, "not_due"),
        (1, "to_30"),
        (30, "to_30"),
        (31, "to_60"),
        (60, "to_60"),
        (61, "to_90"),
        (90, "to_90"),
        (91, "over_90"),
        (400, "over_90"),
    ],
)
def test_days_past_the_day_of_payment_say_the_column(past: int, column: str) -> None:
    assert age_of(ON - timedelta(days=past), ON) == column
    assert getattr(aged([item(past)], ON).rows[0], column) == Decimal(100)


def test_without_a_day_of_payment_it_is_due_on_its_own_day() -> None:
    assert aged([item(31, due_on=None)], ON).rows[0].to_60 == Decimal(100)


def test_a_credit_stands_apart_and_is_part_of_the_total() -> None:
    row = aged([item(45), item(2, "-30")], ON).rows[0]

    assert figures(row.to_60, row.to_30, row.credit, row.overdue, row.total) == "100 0 -30 100 70"


def test_who_is_longest_overdue_stands_first_and_the_foot_adds_up() -> None:
    ages = aged([item(3), item(70, "20", "Two Rivers Team"), item(-5, "7", "Ash Fen")], ON)

    assert [row.customer for row in ages.rows] == ["Two Rivers Team", "Marel Otten", "Ash Fen"]
    total = ages.total
    assert figures(total.not_due, total.to_30, total.to_90, total.total) == "7 100 20 127"
    assert ages.rows[0].longest_days == 70


def test_who_owes_nothing_is_not_on_the_list() -> None:
    assert aged([item(5, "0")], ON).rows == ()
