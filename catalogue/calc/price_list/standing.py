"""What is listed of one article, as it stands or as a list makes it: the columns of its row in order."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from catalogue.calc.money import round_half_up
from catalogue.calc.price_list.listed import Listed

PLACES = 4
"""Decimals of a listed price."""
LONGEST_NAME = 300
LONGEST_UNIT = 40


class Stands(NamedTuple):
    """One article. A plain tuple: there are hundreds of thousands, and each is held against another."""

    number_key: str
    number: str
    name: str
    gtin: str
    unit: str
    pack: int
    currency: str
    cost: Decimal
    list_price: Decimal | None
    own_cost: Decimal
    """In the catalogue's currency, as is the next."""
    own_list_price: Decimal | None
    lead_days: int | None
    superseded_by: str
    gone: bool


def as_listed(row: Listed, key: str, currency: str, rate: Decimal | None) -> Stands:
    """What a row of a list makes of its article. `rate` None: the list is in the catalogue's currency."""
    cost = round_half_up(row.cost, PLACES)
    list_price = None if row.list_price is None else round_half_up(row.list_price, PLACES)
    return Stands(
        number_key=key,
        number=row.number,
        name=row.name[:LONGEST_NAME],
        gtin=row.gtin,
        unit=row.unit[:LONGEST_UNIT],
        pack=row.pack,
        currency=currency,
        cost=cost,
        list_price=list_price,
        own_cost=in_own(cost, rate),
        own_list_price=None if list_price is None else in_own(list_price, rate),
        lead_days=row.lead_days,
        superseded_by=row.superseded_by,
        gone=False,
    )


def in_own(amount: Decimal, rate: Decimal | None) -> Decimal:
    """A sum of the list in the catalogue's currency."""
    return amount if rate is None else round_half_up(amount * rate, PLACES)
