"""Price lists of a supplier of the shipped catalogue, for tests to hand in. Names are invented."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User

from catalogue.actions.price_list.checking import check_list
from catalogue.actions.price_list.handing_in import hand_in
from catalogue.actions.price_list.taking import take_list
from catalogue.calc.price_list.listed import Listed, Rejected
from catalogue.calc.price_list.reading import ReadList
from catalogue.models import ListedPart, Offer, PriceList
from catalogue.queries import current_rows

HOUSE = "main_parts"
NOW = datetime(2027, 2, 1, 9, 0, tzinfo=UTC)
TODAY = NOW.date()


def listed(number: str, cost: str = "10.00", line: int = 2, **changed: Any) -> Listed:
    row: dict[str, Any] = {"line": line, "number": number, "name": f"part {number}", "cost": Decimal(cost)}
    return Listed(**row | changed)


def read(*rows: Listed, rejected: tuple[Rejected, ...] = ()) -> ReadList:
    """What a file says that holds these rows."""
    return ReadList(rows=rows, rejected=rejected, lines=len(rows) + len({one.line for one in rejected}))


SPRING = read(listed("A-1", "10"), listed("A-2", "20", 3), listed("A-3", "30", 4))


def handed_in(name: str = "spring.csv", supplier: str = HOUSE, by: User | None = None) -> PriceList:
    return hand_in(supplier=supplier, name=name, content=name.encode(), by=by, now=NOW)


def checked(given: ReadList, name: str = "spring.csv", on: date = TODAY, supplier: str = HOUSE) -> PriceList:
    return check_list(pk=handed_in(name, supplier).pk, given=given, on=on, now=NOW)


def taken(given: ReadList, name: str = "spring.csv", by: User | None = None) -> PriceList:
    return take_list(pk=checked(given, name).pk, given=given, by=by, on=TODAY, now=NOW)


def prices() -> dict[str, Decimal]:
    """What stands listed, by number; what is gone is left out."""
    rows = ListedPart.objects.filter(gone=False).order_by("number")
    return {number: cost.normalize() for number, cost in rows.values_list("number", "own_cost")}


def an_offer(supplier: str = HOUSE) -> Offer:
    """The first offer of the supplier's in the shipped catalogue."""
    return Offer.objects.filter(supplier=supplier).select_related("part").order_by("part__place")[0]


def cost_of(offer: Offer) -> Decimal:
    return Decimal(str(offer.cost))


def cost_in_the_sums(number: str) -> Decimal:
    """What a part costs as the sums read it."""
    part = next(part for part in current_rows().parts if part.number == number)
    return part.offers[0].cost
