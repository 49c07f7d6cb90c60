"""The smallest values of the sheet, that the larger ones are made of: sums, amounts of service, dates."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from quotes.calc.ask.request import Unit, Value


class Spread(Value):
    """A sum before strip-down: low, typical, high. After strip-down the three are one."""

    low: Decimal
    typical: Decimal
    high: Decimal


class Service(Value):
    """An amount of use."""

    amount: float
    unit: Unit


class Ready(Value):
    """Working calendar dates: even chance, promised (8 in 10), nearly sure (9 in 10)."""

    typical: date
    p80: date
    p90: date


class Likely(Value):
    """A chance with its 80 % band."""

    value: float
    low: float
    high: float
