"""What payments, bills, stock and opening balances do to the accounts, side by side with their entries."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.books.accounts import DEFAULT_ACCOUNTS
from quotes.calc.books.posting import (
    BillCost,
    BuildCosts,
    MoneyMoved,
    OpeningLine,
    bill_entry,
    bill_payment_entry,
    cost_of_sales_entry,
    cost_taken_back_entry,
    opening_entry,
    payment_entry,
    stock_entry,
    write_off_entry,
)
from tests.calc.books.said import said
from tests.calc.invoice.plain import ON


def moved(**change: Any) -> list[str]:
    fields: dict[str, Any] = {
        "on": ON,
        "number": "R-2026-0001",
        "party": "Marel Otten",
        "method": "transfer",
        "amount": Decimal("50.00"),
        "came_in": True,
    }
    return said(payment_entry(MoneyMoved(**(fields | change)), DEFAULT_ACCOUNTS))


@pytest.mark.parametrize(
    ("method", "account"), [("cash", "cash"), ("card", "card"), ("transfer", "bank"), ("cheque", "cheques")]
)
def test_money_in_is_on_the_account_of_its_way_to_pay(method: str, account: str) -> None:
    assert moved(method=method) == [f"{account} Dr 50.00", "receivables Cr 50.00"]


def test_a_deposit_by_receipt_is_held_for_its_build() -> None:
    assert moved(deposit=True, build="Q-2026-0001") == [
        "bank Dr 50.00 Q-2026-0001",
        "deposits_held Cr 50.00 Q-2026-0001",
    ]


def test_money_back_goes_the_other_way() -> None:
    assert moved(came_in=False) == ["bank Cr 50.00", "receivables Dr 50.00"]


def test_of_a_deposit_taken_back_what_an_invoice_took_off_is_owed_by_the_customer() -> None:
    assert moved(came_in=False, deposit=True, owed=Decimal("30.00")) == [
        "bank Cr 50.00",
        "deposits_held Dr 20.00",
        "receivables Dr 30.00",
    ]


def test_what_is_written_off_is_off_the_customers_account() -> None:
    entry = write_off_entry(
        on=ON,
        number="W-2026-0001",
        of="I-2026-0001",
        party="Marel Otten",
        amount=Decimal(9),
        accounts=DEFAULT_ACCOUNTS,
    )

    assert said(entry) == ["written_off Dr 9", "receivables Cr 9"]


def bill(*costs: BillCost, tax: str = "0") -> list[str]:
    entry = bill_entry(
        on=ON,
        number="S-2026-0001",
        supplier="Main parts wholesale",
        supplier_number="4711",
        costs=costs,
        tax=Decimal(tax),
        accounts=DEFAULT_ACCOUNTS,
    )
    return said(entry)


def cost(kind: Any, amount: str, build: str = "", *, settled: bool = False) -> BillCost:
    return BillCost(kind=kind, cost=Decimal(amount), build=build, settled=settled)


def test_a_bill_is_in_progress_for_its_builds_and_cost_where_the_build_is_invoiced() -> None:
    split = bill(
        cost("part", "100", "Q-1"),
        cost("machine_work", "60", "Q-1"),
        cost("machine_work", "40", "Q-2", settled=True),
        cost("freight", "8", "Q-2", settled=True),
        cost("stock", "30"),
        cost("overhead", "5"),
        cost("part", "7"),
        tax="50",
    )

    assert split == [
        "work_in_progress Dr 160 Q-1",
        "cost_of_machine_work Dr 40 Q-2",
        "cost_of_sales_other Dr 8 Q-2",
        "stock Dr 30",
        "overheads Dr 5",
        "cost_of_parts Dr 7",
        "tax_on_purchases Dr 50",
        "payables Cr 300",
    ]


def test_a_suppliers_credit_is_the_other_way_round() -> None:
    assert bill(cost("part", "-100", "Q-1"), tax="-20") == [
        "work_in_progress Cr 100 Q-1",
        "tax_on_purchases Cr 20",
        "payables Dr 120",
    ]


def test_a_bill_is_paid_from_the_account_of_the_way_it_was_paid() -> None:
    entry = bill_payment_entry(
        on=ON,
        number="S-2026-0001",
        supplier="Outside machine shop",
        method="transfer",
        gross=Decimal(120),
        accounts=DEFAULT_ACCOUNTS,
    )

    assert said(entry) == ["payables Dr 120", "bank Cr 120"]


@pytest.mark.parametrize(("settled", "account"), [(False, "work_in_progress"), (True, "cost_of_parts")])
def test_parts_from_the_shelf_leave_the_stock(settled: bool, account: str) -> None:
    entry = stock_entry(
        on=ON,
        build="Q-1",
        description="Seals",
        cost=Decimal("18.50"),
        settled=settled,
        accounts=DEFAULT_ACCOUNTS,
    )

    assert said(entry) == [f"{account} Dr 18.50 Q-1", "stock Cr 18.50"]


def test_work_in_progress_becomes_cost_of_sales_by_what_it_was_for() -> None:
    costs = BuildCosts(parts=Decimal(118), machine_work=Decimal(60), other=Decimal(8))
    entry = cost_of_sales_entry(
        on=ON, build="Q-1", party="Marel Otten", costs=costs, accounts=DEFAULT_ACCOUNTS
    )

    assert said(entry) == [
        "cost_of_parts Dr 118 Q-1",
        "cost_of_machine_work Dr 60 Q-1",
        "cost_of_sales_other Dr 8 Q-1",
        "work_in_progress Cr 186 Q-1",
    ]


def test_cost_of_sales_becomes_work_in_progress_again() -> None:
    costs = BuildCosts(parts=Decimal(118), machine_work=Decimal(60), other=Decimal(-8))
    entry = cost_taken_back_entry(
        on=ON, build="Q-1", party="Marel Otten", costs=costs, accounts=DEFAULT_ACCOUNTS
    )

    assert said(entry) == [
        "work_in_progress Dr 170 Q-1",
        "cost_of_parts Cr 118 Q-1",
        "cost_of_machine_work Cr 60 Q-1",
        "cost_of_sales_other Dr 8 Q-1",
    ]


def test_opening_balances_stand_on_their_own_sides() -> None:
    balances = [
        OpeningLine(role="bank", amount=Decimal(1000)),
        OpeningLine(role="receivables", amount=Decimal(200), text="Marel Otten: 31"),
        OpeningLine(role="receivables", amount=Decimal(-50), text="Two Rivers Team: 12"),
        OpeningLine(role="payables", amount=Decimal(300)),
        OpeningLine(role="deposits_held", amount=Decimal(150), build="Q-1"),
        OpeningLine(role="opening", amount=Decimal(700)),
    ]

    assert said(opening_entry(on=ON, balances=balances, accounts=DEFAULT_ACCOUNTS)) == [
        "bank Dr 1000",
        "receivables Dr 200",
        "receivables Cr 50",
        "payables Cr 300",
        "deposits_held Cr 150 Q-1",
        "opening Cr 700",
    ]
