"""A listed part as a line of the desk's own: its words, its number, what it costs, and the usual price."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from catalogue.calc.money import round_half_up
from catalogue.models import ListedPart
from catalogue.queries import current_rows
from quotes.calc.ask.request import Bought
from quotes.calc.money.price import sell_price, usual_price
from quotes.queries.workshop import shop_rules

LONGEST_NUMBER = 64
"""What a purchase order takes."""


def listed_line(pk: str, on: date) -> dict[str, Decimal | str]:
    """What the line is filled in with; nothing where nobody lists it any more."""
    row = ListedPart.objects.filter(pk=pk, gone=False).first() if pk.isdecimal() and len(pk) < 10 else None
    if row is None:
        return {}
    shop = shop_rules(on)
    listed = row.own_list_price
    price = sell_price(row.own_cost, listed, shop) if listed is not None else usual_price(row.own_cost, shop)
    told: dict[str, Decimal | str] = {
        "kind": "part",
        "description": row.name or row.number,
        "unit": row.unit or "each",
        "unit_price": price,
        "cost": round_half_up(row.own_cost, shop.decimals),
    }
    if len(row.number) <= LONGEST_NUMBER:
        told |= {"supplier": row.supplier_id, "number": row.number}
    return told


def bought_of(line: Bought) -> str:
    """Of whom it is bought, and by which number; nothing where that is not said."""
    if not line.supplier:
        return ""
    names = {row.code: row.name for row in current_rows().suppliers}
    return f"{names.get(line.supplier, line.supplier)}, {line.number}"
