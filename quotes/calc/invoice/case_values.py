"""One document's figures in the shape in which example invoices of EN 16931 are published for checking."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Text, Value
from quotes.calc.invoice.units import PIECE

Number = Annotated[Decimal, Field(allow_inf_nan=False, max_digits=14)]
"""Fourteen digits: the product of two is exact, so that rounding is done once."""
NotNegative = Annotated[Number, Field(ge=0)]
Category = Literal["S", "Z", "E", "AE", "K", "G", "O"]
Rate = Annotated[Number, Field(ge=0, le=100)]


class CaseAdjustment(Value):
    """An allowance or a charge of a line."""

    kind: Literal["allowance", "charge"]
    amount: NotNegative
    reason: Text = ""
    percent: Number | None = None
    base: Number | None = None


class DocumentAdjustment(CaseAdjustment):
    """An allowance or a charge of the whole document, with its tax."""

    vat_category: Category
    vat_rate: Rate = ZERO


class CaseLine(Value):
    """A line. The price is net; where it is not given it is the gross price less its discount."""

    model_config = ConfigDict(coerce_numbers_to_str=True)

    id: Text
    qty: Number
    unit: Text = PIECE
    price: NotNegative | None = None
    base_qty: Annotated[Number, Field(gt=0)] = Decimal(1)
    gross_price: NotNegative | None = None
    price_discount: NotNegative = ZERO
    vat_category: Category
    vat_rate: Rate = ZERO
    allowances_charges: tuple[CaseAdjustment, ...] = ()
    line_net: object = None
    """Published; not read."""


class Published(BaseModel):
    """What of the expected figures is given and not worked out."""

    model_config = ConfigDict(frozen=True, extra="ignore")

    BT113_paid: Number = ZERO
    BT114_rounding: Number = ZERO


class InvoiceCase(Value):
    """One document. What only says where it was published is kept for nobody."""

    lines: tuple[CaseLine, ...]
    doc_allowances_charges: tuple[DocumentAdjustment, ...] = ()
    paid: Number | None = None
    rounding: Number | None = None
    money_decimals: Annotated[int, Field(ge=0, le=4)] = 2
    expected: Published = Published()
    id: object = None
    source: object = None
    syntax: object = None
    number: object = None
    type_code: object = None
    currency: object = None
    wrong_methods_this_case_catches: object = None


def net_price(line: CaseLine) -> Decimal:
    """BT-146. Where it is not given: BT-148 less BT-147."""
    if line.price is not None:
        return line.price
    return (line.gross_price or ZERO) - line.price_discount
