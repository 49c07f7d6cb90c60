"""From a purchase order to the supplier's bill for it, and back: a line of the bill names the order."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say
from quotes.models import BillLineKind, PurchaseOrder, SupplierBill
from quotes.queries.workshop import currency_decimals

NUMBERED = re.compile(r"\bP-\d{4}-\d{4,}\b")
"""How an order is numbered."""


@dataclass(frozen=True, slots=True)
class ToBill:
    """A line of the bill to come: what was ordered for one build, or for the shelf."""

    kind: str
    description: str
    build: str
    net: Decimal


def to_bill(order: PurchaseOrder, currency: str) -> list[ToBill]:
    """One line for each build, at the cost it was ordered at: what the supplier prints is held against it."""
    decimals = currency_decimals(currency)
    sums: dict[str, Decimal] = defaultdict(lambda: ZERO)
    for line in order.lines.select_related("build__quote").order_by("position"):
        build = str(line.build.quote.number) if line.build else ""
        sums[build] += round_half_up(line.quantity * line.unit_cost, decimals)
    said = say("Parts of {order}", order=order.number)
    return [
        ToBill(BillLineKind.PART if build else BillLineKind.STOCK, said, build, net)
        for build, net in sums.items()
    ]


def bills_of(order: PurchaseOrder) -> list[SupplierBill]:
    """Bills that stand and name the order, as one begun from its page does."""
    rows = SupplierBill.objects.standing().filter(lines__description__contains=order.number)
    return list(rows.distinct().order_by("on", "pk"))


def orders_of(bill: SupplierBill) -> list[PurchaseOrder]:
    """The orders that the lines of a bill name."""
    named = bill.lines.values_list("description", flat=True)
    numbers = {number for words in named for number in NUMBERED.findall(words)}
    return list(PurchaseOrder.objects.filter(number__in=numbers).order_by("number")) if numbers else []
