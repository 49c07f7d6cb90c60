"""The owner's yes to prices that a list in force held back: they are taken in with it, from that day on."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from catalogue.actions.price_list.checking import AT_ONCE, Changes, Tell, difference_now
from catalogue.actions.price_list.handing_in import locked_list
from catalogue.actions.price_list.refused import AlreadyTaken, Moved
from catalogue.actions.price_list.rows import write_listed
from catalogue.actions.price_list.taking import agreed_rule, say_nothing, source_of, take_offers
from catalogue.calc.price_list.offers import asked_now
from catalogue.calc.price_list.reading import ReadList
from catalogue.calc.price_list.shown import ShownOffer, offers_at, shown_offer
from catalogue.calc.price_list.standing import Stands
from catalogue.models import HeldPrice, ListedPrice, ListState, PriceList
from catalogue.queries.price_lists import last_in_force
from catalogue.queries.resolved import rows_as_written

Held = Mapping[str, HeldPrice]


@transaction.atomic
def take_held(
    *,
    pk: int,
    given: ReadList,
    keys: Collection[str] | None,
    by: User,
    now: datetime,
    tell: Tell = say_nothing,
) -> PriceList:
    """Take in the held prices named, or all where none are; one that has its yes is not taken in twice.

    Raises Moved where another list of the supplier is in force since, or where a price or an offer is not
    what it was or would not become what was shown; AlreadyTaken where the list is undone.
    """
    row = locked_list(pk)
    if row.state != ListState.IN_FORCE:
        raise AlreadyTaken(row)
    last = last_in_force(row.supplier_id)
    if last is not None and last.pk != row.pk:
        raise Moved(row, last)
    waiting = HeldPrice.objects.filter(price_list=row, yes_at=None)
    held = {one.number_key: one for one in waiting if keys is None or one.number_key in keys}
    if not held:
        return row
    becomes, changes = _as_shown(row, given, held)
    for one in held.values():
        one.yes_by, one.yes_at = by, now
    HeldPrice.objects.bulk_update(held.values(), ["yes_by", "yes_at"], batch_size=AT_ONCE)
    write_listed(row.supplier_id, [(row.pk, one) for one in becomes], tell)
    said = [ListedPrice(price_list=row, **one._asdict()) for one in becomes]
    ListedPrice.objects.bulk_create(said, batch_size=AT_ONCE)
    take_offers(row, changes, source_of(row, timezone.localdate(now)), by, now)
    row.counts = {**row.counts, "yes": row.counts["yes"] + len(held)}
    row.save(update_fields=["found", "counts"])
    return row


def _as_shown(row: PriceList, given: ReadList, held: Held) -> tuple[list[Stands], Changes]:
    """What the articles become, and the offers with them; Moved where that is not what the owner saw."""
    yes = {key: one.becomes for key, one in held.items()}
    found, stands = difference_now(row, given, agreed_rule(row), yes)
    becomes = [one for one in found.write if one.number_key in held]
    offered = asked_now(rows_as_written().parts, row.supplier_id)
    was = {key: stands[key].own_cost if key in stands else offered.get(key) for key in held}
    if {one.number_key: one.own_cost for one in becomes} != yes or any(
        was[key] != one.was for key, one in held.items()
    ):
        raise Moved(row)
    found.write, found.gone, found.would_be = becomes, [], {}
    changes = Changes(row, found, stands)
    if {one.number: shown_offer(one, held=True) for one in changes.now} != _offers_shown(row, held):
        raise Moved(row)
    return becomes, changes


def _offers_shown(row: PriceList, held: Held) -> dict[str, ShownOffer]:
    """How offers were shown to change with this yes, from where the list has left them."""
    taken = {one["part"]: one for one in row.found.get("taken", ())}
    shown = (one for one in offers_at(row.found, held.keys()) if one.held)
    return {one.part: _from_now_on(one, taken[one.part]) if one.part in taken else one for one in shown}


def _from_now_on(one: ShownOffer, taken: Mapping[str, Any]) -> ShownOffer:
    """A change that was shown from what stood before the list, from what it has made of that."""
    now = taken["became"]
    number = one.number or taken["was"]["number"]
    return replace(
        one,
        cost_was=str(now["cost"]),
        pack_was=now["pack"],
        number=number if number != now["number"] else "",
        list_was=taken["list_became"],
    )
