"""What several builds want, put together by supplier and article, in packs and least quantities."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import LeadTime
from catalogue.calc.money import ZERO
from quotes.calc.dates.open_days import open_day_before, open_day_from

AT_ONCE = LeadTime(0.0, 0.0)
SoldAs = tuple[str, str]
"""The supplier's name and the part number: two suppliers may have the same number."""


@dataclass(frozen=True, slots=True)
class Offered:
    """How a supplier sells an article: cost of one before tax, lots, least quantity, lead in working days."""

    supplier: str
    supplier_name: str
    cost: Decimal
    pack: int = 1
    least: int = 1
    lead: LeadTime = AT_ONCE


@dataclass(frozen=True, slots=True)
class Want:
    """So many pieces of an article that one build wants; `needed_on` is the day they must be here."""

    build: int
    key: str
    part_number: str
    quantity: Decimal
    offer: Offered
    needed_on: date | None = None


@dataclass(frozen=True, slots=True)
class Article:
    """An article to be ordered: what the builds want of it, and the spare pieces that go to stock."""

    part_number: str
    offer: Offered
    wants: tuple[Want, ...]
    spare: Decimal

    @property
    def wanted(self) -> Decimal:
        return sum((want.quantity for want in self.wants), ZERO)

    @property
    def quantity(self) -> Decimal:
        return self.wanted + self.spare


@dataclass(frozen=True, slots=True)
class ForSupplier:
    """All that is wanted of one supplier. `order_by` is the last day on which it may be ordered."""

    supplier: str
    supplier_name: str
    articles: tuple[Article, ...]
    order_by: date | None


def sold_as(wanted: Decimal, pack: int, least: int) -> Decimal:
    """The fewest pieces that can be bought: whole packs, never under the least quantity.

    >>> sold_as(Decimal(5), 4, 1), sold_as(Decimal(1), 1, 6), sold_as(Decimal(3), 4, 6)
    (Decimal('8'), Decimal('6'), Decimal('8'))
    """
    if wanted <= ZERO:
        return ZERO
    return Decimal(math.ceil(max(wanted, Decimal(least)) / pack) * pack)


def order_by(needed_on: date, lead: LeadTime, closed_days: Collection[date]) -> date:
    """The last working day to order on: the slow lead before the need, so that 9 in 10 come in time."""
    day = needed_on
    for _ in range(math.ceil(lead.slow_days)):
        day = open_day_before(day, closed_days)
    return day if lead.slow_days else open_day_from(day, closed_days)


def by_supplier(wants: Iterable[Want], closed_days: Collection[date]) -> tuple[ForSupplier, ...]:
    """Wants merged by supplier and article, in the order of their names."""
    merged: dict[str, dict[str, list[Want]]] = {}
    names: dict[str, str] = {}
    for want in wants:
        supplier = want.offer.supplier
        names[supplier] = want.offer.supplier_name
        merged.setdefault(supplier, {}).setdefault(want.part_number, []).append(want)
    return tuple(
        ForSupplier(
            supplier,
            names[supplier],
            tuple(_article(number, merged[supplier][number]) for number in sorted(merged[supplier])),
            _first_day(merged[supplier].values(), closed_days),
        )
        for supplier in sorted(merged, key=lambda code: (names[code], code))
    )


def _article(number: str, wants: list[Want]) -> Article:
    offer = wants[0].offer
    wanted = sum((want.quantity for want in wants), ZERO)
    return Article(number, offer, tuple(wants), sold_as(wanted, offer.pack, offer.least) - wanted)


def _first_day(wants: Iterable[list[Want]], closed_days: Collection[date]) -> date | None:
    days = [
        order_by(want.needed_on, want.offer.lead, closed_days)
        for several in wants
        for want in several
        if want.needed_on
    ]
    return min(days, default=None)
