"""Suppliers' bills as a file gives them, before they are entered."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from catalogue.calc.money import ZERO


@dataclass(frozen=True, slots=True)
class LineGiven:
    """One line of a bill. `build` is the number of a quote, or nothing."""

    line: int
    kind: str
    description: str
    net: Decimal
    build: str


@dataclass(slots=True)
class BillGiven:
    """Lines of one supplier with one number; tax is added up over them."""

    line: int
    """The line of the file on which it begins."""
    supplier: str
    number: str
    on: date
    due_on: date | None
    tax: Decimal = ZERO
    lines: list[LineGiven] = field(default_factory=list)

    @property
    def net(self) -> Decimal:
        return sum((line.net for line in self.lines), ZERO)

    @property
    def gross(self) -> Decimal:
        return self.net + self.tax
