"""A journal entry as it is handed to the accounts: double entry, balanced, pointing at its document."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal, Self

from pydantic import model_validator

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Value

Role = Literal[
    "receivables",
    "bank",
    "cash",
    "card",
    "cheques",
    "stock",
    "work_in_progress",
    "tax_on_purchases",
    "payables",
    "deposits_held",
    "tax_on_sales",
    "sales_labour",
    "sales_parts",
    "sales_machine_work",
    "sales_consumables",
    "sales_other",
    "discounts",
    "interest_income",
    "rounding",
    "cost_of_parts",
    "cost_of_machine_work",
    "cost_of_sales_other",
    "overheads",
    "written_off",
    "opening",
]
"""What an account is for. Which code it has in the shop's chart of accounts is the shop's to set."""

Source = Literal[
    "invoice",
    "payment",
    "write_off",
    "bill",
    "bill_payment",
    "stock",
    "cost_of_sales",
    "cost_taken_back",
    "opening",
    "other",
]
"""The sort of document that an entry comes from."""


class AccountCode(Value):
    """An account of the shop's chart, by what it is for."""

    role: Role
    code: str
    name: str


class EntryLine(Value):
    """One side of an entry: either debit or credit is above nought, the other is nought."""

    account: AccountCode
    debit: Decimal = ZERO
    credit: Decimal = ZERO
    text: str = ""
    tax_code: str = ""
    """On tax lines, and on the sales that they are worked out from."""
    rate_pct: Decimal | None = None
    build: str = ""
    """Number of the quote that the build was accepted on."""

    @model_validator(mode="after")
    def one_side(self) -> Self:
        if self.debit < ZERO or self.credit < ZERO or (self.debit and self.credit):
            raise ValueError(f"{self.account.role}: debit {self.debit} and credit {self.credit}")
        return self


class Entry(Value):
    """A balanced entry. One whose debits are not its credits can't exist."""

    on: date
    source: Source
    number: str
    """Number of the document."""
    party: str = ""
    """Customer or supplier."""
    text: str
    lines: tuple[EntryLine, ...]

    @model_validator(mode="after")
    def balances(self) -> Self:
        debit = sum((line.debit for line in self.lines), ZERO)
        credit = sum((line.credit for line in self.lines), ZERO)
        if debit != credit:
            raise ValueError(f"{self.source} {self.number}: debits {debit} are not credits {credit}")
        return self
