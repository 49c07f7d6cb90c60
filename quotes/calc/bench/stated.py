"""Service that is stated at intake, against what is known of the engine: an engine does not run backwards."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.request import Segment

KM_PER_MILE = Decimal("1.609344")
"""Exact: the international mile of 1959."""
ROUNDING = Decimal("0.005")
"""Miles told in kilometres and back differ by so little, as a share."""


@dataclass(frozen=True, slots=True)
class EarlierService:
    """Service that was known before: how much, and where that stands, in words."""

    amount: Decimal
    unit: str
    where: str


def in_unit(amount: Decimal, of: str, unit: str) -> Decimal | None:
    """So much service in another unit; None where the two can't be compared, such as hours and miles.

    >>> in_unit(Decimal(1000), "mi", "km"), in_unit(Decimal(10), "h", "mi")
    (Decimal('1609.34'), None)
    """
    if of == unit:
        return amount
    if (of, unit) == ("mi", "km"):
        return round_half_up(amount * KM_PER_MILE, 2)
    if (of, unit) == ("km", "mi"):
        return round_half_up(amount / KM_PER_MILE, 2)
    return None


def total_of(history: Sequence[Segment], unit: str) -> Decimal | None:
    """All stretches together in one unit; None where one of them can't be told in it."""
    told = [in_unit(stretch.amount, stretch.unit, unit) for stretch in history]
    known = [amount for amount in told if amount is not None]
    return sum(known, ZERO) if len(known) == len(told) else None


def backwards(stated: Decimal, unit: str, earlier: Iterable[EarlierService]) -> EarlierService | None:
    """The earlier record that says most more than what is stated now, if one does."""
    more: list[tuple[Decimal, EarlierService]] = []
    for one in earlier:
        known = in_unit(one.amount, one.unit, unit)
        slack = ZERO if one.unit == unit else stated * ROUNDING
        if known is not None and known > stated + slack:
            more.append((known, one))
    return max(more, key=lambda pair: pair[0])[1] if more else None


def run_since(stated: Decimal, unit: str, history: Sequence[Segment] | None) -> Decimal | None:
    """What was run since the last stretch that is on record; None where that can't be said.

    All of it where nothing is known of the engine so far.
    """
    if not history:
        return stated
    known = total_of(history, unit)
    return stated - known if known is not None and known <= stated else None
