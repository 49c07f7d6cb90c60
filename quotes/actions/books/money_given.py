"""What is asked of every sum and day that somebody types into the books."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from django.core.exceptions import ValidationError
from django.utils import timezone

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say
from quotes.models import PaymentMethod, Workshop
from quotes.queries.workshop import currency_decimals

MOST = Decimal(10_000_000)
"""No sum of a workshop reaches ten million: more is a slip of the finger."""


def currency_now() -> str:
    """The workshop's currency; one query."""
    return Workshop.objects.get_or_default().currency


def in_coins(amount: Decimal, currency: str, field: str = "amount", *, above_nought: bool = True) -> Decimal:
    """The sum, if the currency has coins for it and it is within what a workshop ever pays."""
    decimals = currency_decimals(currency)
    if not amount.is_finite() or abs(amount) >= MOST:
        raise ValidationError(
            {
                field: say(
                    "{amount} is not a sum below {most} {currency}.",
                    amount=amount,
                    most=f"{MOST:,f}",
                    currency=currency,
                )
            }
        )
    if round_half_up(amount, decimals) != amount:
        raise ValidationError(
            {
                field: say(
                    "{amount} has smaller coins than {currency}: at most {decimals} decimals.",
                    amount=f"{amount:f}",
                    currency=currency,
                    decimals=decimals,
                )
            }
        )
    if above_nought and amount <= ZERO:
        raise ValidationError({field: say("{amount} is not above 0.", amount=f"{amount:f}")})
    return amount


def not_to_come(day: date, now: datetime, field: str = "on") -> date:
    """The day, if it has come: money is in the books when it has moved, not before."""
    today = timezone.localdate(now)
    if day > today:
        raise ValidationError(
            {field: say("{day} is still to come: {today} or earlier.", day=day, today=today)}
        )
    return day


def way_to_pay(method: str) -> str:
    """The way to pay, if there is such a one."""
    if method not in PaymentMethod.values:
        raise ValidationError(
            {
                "method": say(
                    "“{method}” is none of {names}.", method=method, names=", ".join(PaymentMethod.values)
                )
            }
        )
    return method
