"""Payments and accounts to draw, every value replaceable."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from catalogue.calc.money import ZERO
from quotes.calc.books.papers import PaymentReceipt, SettledDocument, StatementPaper
from quotes.calc.books.statement import Movement, statement
from tests.documents.invoice.sheets import ACCOUNT, BUYER, ON, SELLER


def receipt(**change: Any) -> PaymentReceipt:
    """A transfer that settles one invoice, a part of another, and leaves something over."""
    fields: dict[str, Any] = {
        "number": "R-2026-0107",
        "on": ON,
        "amount": Decimal("1500.00"),
        "currency": "EUR",
        "decimals": 2,
        "method": "bank transfer",
        "workshop": SELLER,
        "customer": BUYER,
        "build": "Q-2026-0312",
        "engine": "H4-31870",
        "taken_by": "Orla Fenwick",
        "settled": (
            SettledDocument(
                kind="invoice", number="I-2026-0004", on=date(2026, 10, 2), amount=Decimal("1100.00")
            ),
            SettledDocument(
                kind="deposit invoice",
                number="D-2026-0007",
                on=date(2026, 11, 2),
                amount=Decimal("250.00"),
                left=Decimal("1250.00"),
            ),
        ),
    }
    return PaymentReceipt(**(fields | change))


UNPAID = frozenset({10, 17, 20, 22, 23})
"""Due 193, 88, 43 and 13 days before the last day, and two days after it."""


def account() -> Iterator[Movement]:
    """An invoice every half month and three payments on each but those that are unpaid."""
    for number in range(24):
        on, amount = date(2025, 12, 3) + timedelta(days=number * 15), Decimal(1900 + number)
        yield Movement(
            on=on,
            kind="Deposit invoice" if number % 5 == 0 else "Invoice",
            number=f"I-2026-{number + 1:04}",
            due_on=on + timedelta(days=14),
            amount=amount,
            open=amount if number in UNPAID else ZERO,
        )
        if number not in UNPAID:
            for part, paid in enumerate((Decimal(900), Decimal(500), amount - 1400), start=1):
                yield Movement(
                    on=on + timedelta(days=4 * part),
                    kind="Payment",
                    number=f"R-2026-{number * 3 + part:04}",
                    amount=-paid,
                    open=ZERO,
                )


def statement_paper(*movements: Movement, held: str = "500", **change: Any) -> StatementPaper:
    """An account of three pages, or of the movements given."""
    given = movements or tuple(account())
    fields: dict[str, Any] = {
        "account": statement(given, date(2026, 1, 1), ON, deposits_held=Decimal(held)),
        "currency": "EUR",
        "decimals": 2,
        "workshop": SELLER,
        "customer": BUYER,
        "bank": ACCOUNT,
    }
    return StatementPaper(**(fields | change))
