"""A booking as it is confirmed: the week, the deposit, what to bring, the terms, and who may say yes."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.said import say
from quotes.calc.ask.request import Value
from quotes.calc.sheet.issued_values import Party


class BookingSheet(Value):
    """Frozen when the week is booked. Sums are in the workshop's currency; the band is with tax."""

    number: str
    made_on: date
    workshop: Party
    customer: Party
    engine_name: str
    engine_number: str
    tier_name: str
    hours: Decimal
    slot_week: date
    """Monday of the week in which the work begins."""
    arrive_by: date
    ready_on: date
    needed_on: date | None
    currency: str
    decimals: int
    low: Decimal
    high: Decimal
    subject_to: str
    delivered: str
    deposit: Decimal
    kept_inside_days: int
    """The deposit is kept where a booking is cancelled inside so many days before its week."""
    authority: str
    authority_name: str
    said_how: str
    limit_sum: Decimal
    old_parts: str
    storage: tuple[str, ...]
    storage_free_days: int | None = None
    storage_a_day: Decimal | None = None
    """The figures of the storage terms; None on confirmations from before they were kept as figures."""
    bring: tuple[str, ...]
    terms: tuple[str, ...]
    paper: Literal["A4", "Letter"] = "A4"
    language: str = "en"
    """Of the customer, in which its sentences are kept."""


class BookingState(Value):
    """What has happened to a booking since it was confirmed."""

    agreed_on: date | None = None
    agreed_by: str = ""
    cancelled_on: date | None = None
    cancelled_because: str = ""


def deposit_is_kept(sheet: BookingSheet, on: date) -> bool:
    """Whether the deposit stays with the workshop where the booking is cancelled on that day."""
    return bool(sheet.deposit) and (sheet.slot_week - on).days < sheet.kept_inside_days


DEFAULT_DEPOSITS = {"single450": Decimal(100), "twin650": Decimal(100), "four600": Decimal(150)}
"""What holds a week in the winter queue, by engine type; common practice, no source."""
DEFAULT_DEPOSIT = Decimal(150)
"""For every other type, the 1000 four among them; common practice, no source."""


def default_deposit(type_code: str) -> Decimal:
    """The slot deposit of an engine type where the owner has set none."""
    return DEFAULT_DEPOSITS.get(type_code, DEFAULT_DEPOSIT)


def storage_sentences(free_days: int, a_day: str, more: str) -> tuple[str, ...]:
    """Storage in words; `a_day` is the charge as money, blank where none is made."""
    said = []
    if a_day:
        said.append(
            say(
                "Engines and parts that are not collected within {free_days} days after we have said "
                "that they are ready are charged {a_day} a day for storage.",
                free_days=free_days,
                a_day=a_day,
            )
        )
    return (*said, *(line.strip() for line in more.splitlines() if line.strip()))


def deposit_sentence(sheet: BookingSheet, amount: str) -> str:
    """What the deposit is for and when it is kept; `amount` is the deposit as money."""
    if not sheet.deposit:
        return say("No deposit is asked for this week.")
    if sheet.kept_inside_days:
        return say(
            "{amount} holds the week and is taken off the invoice. It is not refundable inside {days} days "
            "of the week booked.",
            amount=amount,
            days=sheet.kept_inside_days,
        )
    return say(
        "{amount} holds the week and is taken off the invoice. It is refunded whenever the booking is "
        "cancelled before the week begins.",
        amount=amount,
    )
