"""A customer's account over a period."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from quotes.calc.books.statement import Movement, Statement, statement
from tests.calc.invoice.plain import said as figures

FIRST, LAST = date(2026, 10, 1), date(2026, 10, 31)


def movement(day: date, number: str, amount: str, still_open: str = "0", due: date | None = None) -> Movement:
    return Movement(
        on=day, kind="Invoice", number=number, due_on=due, amount=Decimal(amount), open=Decimal(still_open)
    )


ACCOUNT = (
    movement(date(2026, 9, 10), "I-1", "500", "200", date(2026, 9, 24)),
    movement(date(2026, 9, 30), "R-1", "-300"),
    movement(date(2026, 10, 1), "I-2", "120", "120", date(2026, 10, 31)),
    movement(date(2026, 10, 31), "R-2", "-50", "-50"),
    movement(date(2026, 11, 1), "I-3", "999", "999"),
)


def october() -> Statement:
    return statement(ACCOUNT, FIRST, LAST)


def test_it_begins_with_what_was_owed_the_day_before() -> None:
    assert october().opening == Decimal(200)


def test_each_line_has_the_balance_after_it() -> None:
    lines = october().lines

    assert [(line.number, figures(line.debit, line.credit, line.balance)) for line in lines] == [
        ("I-2", "120 0 320"),
        ("R-2", "0 50 270"),
    ]


def test_first_and_last_day_are_in_it_and_it_ends_with_the_last_balance() -> None:
    assert october().closing == Decimal(270)
    assert statement(ACCOUNT, date(2026, 10, 2), date(2026, 10, 30)).lines == ()
    assert statement(ACCOUNT, date(2026, 10, 2), date(2026, 10, 30)).closing == Decimal(320)


def test_what_is_open_is_said_also_from_before_the_period() -> None:
    assert [each.number for each in october().still_open] == ["I-1", "I-2", "R-2"]


def test_only_what_was_to_be_paid_before_the_last_day_is_overdue() -> None:
    assert october().overdue == Decimal(200)


def test_the_balance_is_what_is_open() -> None:
    assert october().closing == sum(each.open for each in october().still_open)
