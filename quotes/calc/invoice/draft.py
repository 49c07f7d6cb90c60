"""A document before it is issued: what somebody may still change."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Bought, Text, Value
from quotes.calc.invoice.line_tax import LineTax
from quotes.calc.invoice.values import Adjustment, LineKind

MOST = 10_000_000
"""No price, quantity or sum of a workshop reaches ten million: more is a slip of the finger."""
Quantity = Annotated[Decimal, Field(ge=-MOST, le=MOST, allow_inf_nan=False, max_digits=14, decimal_places=4)]
UnitPrice = Annotated[Decimal, Field(ge=0, le=MOST, allow_inf_nan=False, max_digits=14, decimal_places=4)]
Sum = Annotated[Decimal, Field(ge=0, le=MOST, allow_inf_nan=False, max_digits=14, decimal_places=3)]
Words = Annotated[
    str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200, pattern=r"^[^\x00]*$")
]


class DraftLine(Bought):
    """A line before its net and its rate are worked out. `key` as in `InvoiceLine`."""

    key: str = ""
    kind: LineKind
    description: Words
    note: Text = ""
    quantity: Quantity
    unit: Text = "each"
    unit_price: UnitPrice
    price_base: Annotated[Decimal, Field(gt=0, le=MOST)] = Decimal(1)
    adjustments: tuple[Adjustment, ...] = ()
    tax_code: str
    component: str | None = None
    own_part: bool = False
    operation: str = ""
    """The bench operation that a labour line is for, so that hours clocked on it find the line."""
    taxed: LineTax | None = None
    """Set where the tax of an earlier document is kept, whatever the code's rate is now."""
    of_line: int | None = None
    """On a credit note: the number of the line of the original that this takes back."""


class Draft(Value):
    """What a draft document holds beside whom it is for.

    `prepayments` are receipt numbers of deposits without tax that are to be taken off, with the sum of each.
    """

    lines: tuple[DraftLine, ...] = ()
    adjustments: tuple[Adjustment, ...] = ()
    prepayments: dict[str, Sum] = Field(default_factory=dict)
    rounding: Decimal = ZERO
    labour_by: Literal["quoted", "clocked"] = "quoted"
    """Whether bench work is asked for at the hours quoted or at those clocked."""
    last: bool = False
    """Whether nothing more is asked for of the build after this, though not all that was accepted was."""
    reason: Text = ""
    note: Text = ""
