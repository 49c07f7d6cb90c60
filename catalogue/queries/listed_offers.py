"""The card of a part filled in from what a supplier lists, to be looked at and kept by hand."""

from __future__ import annotations

from typing import Any

from django.db.models import Q

from catalogue.calc.money import round_half_up
from catalogue.calc.price_list.listed import number_key
from catalogue.calc.rows.trade import PartRow
from catalogue.calc.said import say
from catalogue.models import ListedPart


def with_listed(dump: dict[str, Any], listed: str) -> dict[str, Any]:
    """The values of a part with the listed one as its supplier's offer; as they are where there is none."""
    row = (
        ListedPart.objects.filter(pk=listed).select_related("price_list").first()
        if listed.isdecimal()
        else None
    )
    if row is None:
        return dump
    stands = Terms(row)
    if not dump:
        return stands.new_part()
    offers = [{**one} for one in dump["offers"]]
    for one in offers:
        if one["supplier"] == row.supplier_id:
            one |= stands.offer(holds=one["holds"])
            break
    else:
        offers.append({"supplier": row.supplier_id, **stands.offer(), **stands.lead(), "preferred": False})
    return {**dump, "offers": offers}


def listed_as(part: PartRow) -> list[ListedPart]:
    """What the suppliers of a part list under the numbers that its offers go by."""
    wanted = Q(pk__in=())
    for offer in part.offers:
        wanted |= Q(supplier=offer.supplier, number_key=number_key(offer.number or part.number))
    return list(ListedPart.objects.filter(wanted).select_related("supplier", "price_list"))


class Terms:
    """A listed part as values of a card."""

    def __init__(self, row: ListedPart) -> None:
        self.row = row

    def offer(self, holds: int = 1) -> dict[str, Any]:
        """Number, cost and lot, with where they come from."""
        came = self.row.price_list
        return {
            "number": self.row.number,
            "cost": round_half_up(self.row.own_cost / holds),
            "pack": max(self.row.pack * holds, 1),
            "source": say(
                "price list {file}, in force from {day}", file=came.name, day=f"{came.in_force_from:%Y-%m-%d}"
            ),
        }

    def lead(self) -> dict[str, Any]:
        """Days to arrive as listed; the slow ones are for who knows the supplier."""
        return {} if self.row.lead_days is None else {"lead_typical_days": self.row.lead_days}

    def new_part(self) -> dict[str, Any]:
        """A part of its own, as far as a list can say."""
        row = self.row
        offer = {"supplier": row.supplier_id, **self.offer(), **self.lead(), "preferred": True}
        price = row.own_list_price if row.own_list_price is not None else row.own_cost
        named = {"number": row.number_key, "name": row.name, "unit": row.unit, "quantity": 1}
        return {
            **named,
            "list_price": round_half_up(price),
            "range_low": 1,
            "range_high": 1,
            "offers": [offer],
        }
