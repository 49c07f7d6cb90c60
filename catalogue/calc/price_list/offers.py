"""What a list does to the catalogue's own parts: which offers take another cost, lot or number from it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import round_half_up
from catalogue.calc.price_list.chain import last_of
from catalogue.calc.price_list.listed import number_key
from catalogue.calc.price_list.standing import Stands
from catalogue.calc.resolve_work import preferred_offer
from catalogue.calc.rows.trade import OfferRow, PartRow

LARGEST_LOT = 10_000
Find = Callable[[str], Stands | None]
"""What is listed under a key."""


@dataclass(frozen=True, slots=True)
class OfferChange:
    """One part of the catalogue whose offer changes with a list."""

    key: str
    """Of the listed number that it follows."""
    was: PartRow
    becomes: PartRow
    supplier: str

    @property
    def number(self) -> str:
        return self.was.number

    @property
    def offer_was(self) -> OfferRow:
        return offer_of(self.was, self.supplier)

    @property
    def offer_becomes(self) -> OfferRow:
        return offer_of(self.becomes, self.supplier)

    @property
    def is_preferred(self) -> bool:
        """Whether the sums take this offer."""
        return preferred_offer(self.becomes).supplier == self.supplier

    @property
    def above_list(self) -> bool:
        """It would cost more than the list price that it is sold at at most."""
        return self.is_preferred and self.offer_becomes.cost > self.becomes.list_price


def offer_of(part: PartRow, supplier: str) -> OfferRow:
    return next(offer for offer in part.offers if offer.supplier == supplier)


def offers_of(parts: Iterable[PartRow], supplier: str) -> Iterator[tuple[str, PartRow, OfferRow]]:
    """Each offer of a supplier with its part, and the key of the number it goes by."""
    for part in parts:
        for offer in part.offers:
            if offer.supplier == supplier and (key := number_key(offer.number or part.number)):
                yield key, part, offer


def asked_now(parts: Iterable[PartRow], supplier: str) -> dict[str, Decimal]:
    """What one of the supplier's units costs by the offers that stand, by key."""
    return {key: offer.cost * offer.holds for key, _, offer in offers_of(parts, supplier)}


def offer_changes(
    parts: Iterable[PartRow], supplier: str, find: Find, touched: Collection[str]
) -> tuple[OfferChange, ...]:
    """Offers that a list changes: those whose number, or the one in its place, it has `touched`."""
    found = []
    for key, part, offer in offers_of(parts, supplier):
        end = followed(key, find)
        if end is None or not {key, end.number_key} & {*touched}:
            continue
        becomes = with_listed(part, offer, end, followed=end.number_key != key)
        if becomes != part:
            found.append(OfferChange(end.number_key, part, becomes, supplier))
    return tuple(found)


def followed(key: str, find: Find) -> Stands | None:
    """What is listed under a number, or under the last of those that took its place and is to be had."""
    nexts, at = dict[str, str](), key
    while (one := find(at)) and one.superseded_by and at not in nexts:
        at = nexts.setdefault(at, number_key(one.superseded_by))
    for number in (last_of(key, nexts), key):
        if (listed := find(number)) and not listed.gone:
            return listed
    return None


def with_listed(part: PartRow, offer: OfferRow, listed: Stands, *, followed: bool) -> PartRow:
    """The part as its offer takes what is listed; its list price too where the sums take this offer.

    A lot of one is what a list says that names none, so it leaves the offer's alone.
    """
    terms: dict[str, object] = {"cost": round_half_up(listed.own_cost / offer.holds)}
    if listed.pack > 1:
        terms["pack"] = min(listed.pack * offer.holds, LARGEST_LOT)
    if followed:
        terms["number"] = listed.number
    offers = tuple(
        one.model_copy(update=terms) if one.supplier == offer.supplier else one for one in part.offers
    )
    update: dict[str, object] = {"offers": offers}
    changed = part.model_copy(update=update)
    if listed.own_list_price is not None and preferred_offer(changed).supplier == offer.supplier:
        update["list_price"] = round_half_up(listed.own_list_price / offer.holds)
    return part.model_copy(update=update)
