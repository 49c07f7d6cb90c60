"""A customer's account over a period: what it began with, every document and payment, what it ends with."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Value


class Movement(Value):
    """One item of the account. `amount` is above nought where the customer owes more by it."""

    on: date
    kind: str
    """In words: invoice, credit note, payment, paid back …"""
    number: str
    due_on: date | None = None
    amount: Decimal
    open: Decimal
    """What of it nothing has settled by the last day."""


class StatementLine(Value):
    """A movement with the balance after it."""

    on: date
    kind: str
    number: str
    due_on: date | None
    debit: Decimal
    credit: Decimal
    balance: Decimal
    open: Decimal


class Statement(Value):
    """Balances above nought are owed to the workshop."""

    first: date
    last: date
    opening: Decimal
    lines: tuple[StatementLine, ...]
    closing: Decimal
    overdue: Decimal
    """What of the closing balance was to be paid before the last day."""
    still_open: tuple[Movement, ...]
    """Every item that nothing has settled in full by the last day, also those from before the first."""
    deposits_held: Decimal = ZERO
    """Paid for builds and not yet invoiced; no part of the balance."""


def statement(
    movements: Iterable[Movement], first: date, last: date, *, deposits_held: Decimal = ZERO
) -> Statement:
    """The account from `first` to `last`, both included. `movements` are the customer's up to `last`."""
    upto = sorted((each for each in movements if each.on <= last), key=lambda each: each.on)
    opening = sum((each.amount for each in upto if each.on < first), ZERO)
    lines = _running(opening, [each for each in upto if each.on >= first])
    still_open = tuple(each for each in upto if each.open)
    late = (each.open for each in still_open if each.open > ZERO and (each.due_on or each.on) < last)
    return Statement(
        first=first,
        last=last,
        opening=opening,
        lines=lines,
        closing=lines[-1].balance if lines else opening,
        overdue=sum(late, ZERO),
        still_open=still_open,
        deposits_held=deposits_held,
    )


def _running(opening: Decimal, movements: Sequence[Movement]) -> tuple[StatementLine, ...]:
    made: list[StatementLine] = []
    balance = opening
    for each in movements:
        balance += each.amount
        made.append(
            StatementLine(
                on=each.on,
                kind=each.kind,
                number=each.number,
                due_on=each.due_on,
                debit=max(each.amount, ZERO),
                credit=max(-each.amount, ZERO),
                balance=balance,
                open=each.open,
            )
        )
    return tuple(made)
