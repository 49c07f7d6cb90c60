"""One row of a supplier's price list, read and checked; and a row that was refused, with why."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.search_key import search_key

_ALNUM = re.compile(r"[A-Za-z0-9]")
_NO_MARKS = {code: None for code in range(128) if not chr(code).isalnum()}


def number_key(number: str) -> str:
    """A part number as numbers are told apart: no case, no blanks, no marks. "ab-12 / 3" is "AB123"."""
    if number.isascii():
        # The same for a tenth of the time, which counts with a hundred thousand of them.
        return number.translate(_NO_MARKS).upper()
    return search_key(number).replace(" ", "").upper()


@dataclass(frozen=True, slots=True)
class Listed:
    """What a supplier asks for one article, before tax, in the list's own currency.

    `cost` is for one `unit`, however many come in a `pack`. Empty texts and None are left out by the list.
    """

    line: int
    """The line of the file, counted from 1."""
    number: str
    name: str
    cost: Decimal
    list_price: Decimal | None = None
    gtin: str = ""
    unit: str = ""
    pack: int = 1
    lead_days: int | None = None
    """Working days until it is here."""
    superseded_by: str = ""
    """The number that took this one's place."""

    def __post_init__(self) -> None:
        if not ((self.number.isascii() and _ALNUM.search(self.number)) or self.key):
            raise ValueError(f"line {self.line}: part number {self.number!r} has no letter and no figure")
        if self.cost < 0 or self.pack < 1:
            raise ValueError(
                f"line {self.line}: cost {self.cost} must be nought or more, pack {self.pack} one or more"
            )

    @property
    def key(self) -> str:
        return number_key(self.number)


@dataclass(frozen=True, slots=True)
class Rejected:
    """A row that can't be taken: which cell, what it says, why not, and what is allowed."""

    line: int
    column: str
    value: str
    reason: str
    allowed: str
    cells: tuple[str, ...] = ()
    """The whole row as it stands in the file, to be handed back with the reason beside it."""
    besides: tuple[str, ...] = ()
    """What else is wrong with the row, each as a sentence."""
