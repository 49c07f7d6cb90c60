"""What the papers about payments say: a payment's receipt, a statement of account, a reminder."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Value
from quotes.calc.books.ages import Age, age_of
from quotes.calc.books.statement import Movement, Statement
from quotes.calc.invoice.values import Account
from quotes.calc.sheet.issued_values import Party

PaymentWay = Literal["received", "refund", "reversal"]
"""Money that came in, that was paid back, or a payment that did not hold and was taken back."""


class SettledDocument(Value):
    """What a payment has settled of one document, and what is still open of it after that."""

    kind: str
    """In words: invoice, deposit invoice …"""
    number: str
    on: date
    amount: Decimal
    left: Decimal = ZERO


class PaymentReceipt(Value):
    """A payment as its receipt says it. `amount` is above nought; `kind` says which way it went."""

    kind: PaymentWay = "received"
    number: str
    on: date
    amount: Decimal
    currency: str
    decimals: int
    method: str
    """In words: cash, card, bank transfer, cheque."""
    reference: str = ""
    note: str = ""
    workshop: Party
    customer: Party
    build: str = ""
    """Number of the quote that the build was accepted on."""
    engine: str = ""
    deposit: bool = False
    """Whether the money is held for the build until it is invoiced."""
    reverses: str = ""
    """Number of the payment that this takes back."""
    settled: tuple[SettledDocument, ...] = ()
    taken_by: str = ""
    paper: Literal["A4", "Letter"] = "A4"
    language: str = "en"

    @property
    def on_account(self) -> Decimal:
        """What of the sum has settled no document."""
        return self.amount - sum((each.amount for each in self.settled), ZERO)


class AccountLetter(Value):
    """What every letter on a customer's account bears. `bank` is where a transfer goes."""

    currency: str
    decimals: int
    workshop: Party
    customer: Party
    bank: Account = Account()
    paper: Literal["A4", "Letter"] = "A4"
    language: str = "en"


class StatementPaper(AccountLetter):
    """A customer's account as it is sent."""

    account: Statement

    @property
    def made_on(self) -> date:
        return self.account.last

    @property
    def open_sum(self) -> Decimal:
        """What nothing has settled; with every item of the customer in it, this is the closing balance."""
        return sum((item.open for item in self.account.still_open), ZERO)

    def by_age(self) -> dict[Age, Decimal]:
        """What the customer owes, by how long it has been due on the last day; ages without any left out."""
        sums: dict[Age, Decimal] = {}
        for item in self.account.still_open:
            if item.open > ZERO:
                age = age_of(_due(item), self.account.last)
                sums[age] = sums.get(age, ZERO) + item.open
        return sums


def _due(item: Movement) -> date:
    return item.due_on or item.on


class Claim(Value):
    """One overdue document as a reminder claims it. `time` counts the reminders of it, this one too."""

    kind: str
    """In words: invoice, deposit invoice, opening balance."""
    number: str
    on: date
    due_on: date
    amount: Decimal
    open: Decimal
    time: int = 1

    @property
    def settled(self) -> Decimal:
        return self.amount - self.open


class ReminderPaper(AccountLetter):
    """A reminder of what is overdue, as it is kept and sent. `words` are as somebody wrote them."""

    number: str
    on: date
    pay_by: date
    claims: tuple[Claim, ...]
    words: str

    @property
    def sum(self) -> Decimal:
        return sum((claim.open for claim in self.claims), ZERO)

    @property
    def time(self) -> int:
        """How often the customer was asked for what he was asked for most often."""
        return max(claim.time for claim in self.claims)
