"""A purchase order as it is sent: paper and file are drawn from this value."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from quotes.calc.ask.request import Value
from quotes.calc.sheet.issued_values import Party


class OrderedArticle(Value):
    """One article of the order. Cost of one before tax; `marks` names the jobs that it is for."""

    position: int
    part_number: str
    description: str
    size: str = ""
    quantity: Decimal
    unit: str
    unit_cost: Decimal
    net: Decimal
    marks: tuple[str, ...] = ()


class OrderSheet(Value):
    """What is ordered of whom, for when. Sums before tax, in the workshop's currency."""

    number: str
    workshop: Party
    supplier: str
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    currency: str
    decimals: int
    ordered_on: date
    needed_on: date | None = None
    articles: tuple[OrderedArticle, ...]
    net: Decimal
    note: str = ""
