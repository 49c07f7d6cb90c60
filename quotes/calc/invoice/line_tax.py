"""How a line of an invoice is taxed, kept with it."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Value


class LineTax(Value):
    """How a line is taxed, in full, so that its tax can be worked out again without the shop's settings."""

    category: str
    components: tuple[tuple[str, Decimal], ...] = ()
    """Name and rate in per cent of each layer."""
    reason: str = ""
    """Why nothing is charged, where nothing is."""

    @property
    def rate_pct(self) -> Decimal:
        return sum((rate for _, rate in self.components), ZERO)
