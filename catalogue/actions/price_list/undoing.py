"""Undoing a list as a whole: what stood before stands again."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.lives import hold_lives as hold_catalogue
from catalogue.actions.parts import PartEdit, change_parts, give_back
from catalogue.actions.price_list.checking import Tell
from catalogue.actions.price_list.handing_in import locked_list
from catalogue.actions.price_list.refused import AlreadyTaken, NotTheLast
from catalogue.actions.price_list.rows import write_listed
from catalogue.actions.price_list.taking import say_nothing
from catalogue.calc.price_list.offers import offer_of
from catalogue.calc.rows.trade import OfferRow, PartRow
from catalogue.calc.said import say
from catalogue.models import ListedPart, ListState, PriceList
from catalogue.queries.price_lists import before, last_in_force
from catalogue.queries.resolved import rows_as_written


@transaction.atomic
def undo_list(*, pk: int, by: User | None, now: datetime, tell: Tell = say_nothing) -> PriceList:
    """Take a list out again, or call off one that waits for its day.

    An offer that somebody has changed by hand since keeps that change; which those are is kept with the list.
    Raises NotTheLast where a later list rests on it, AlreadyTaken where it is undone already.
    """
    row = locked_list(pk)
    if row.state not in (ListState.IN_FORCE, ListState.DUE):
        raise AlreadyTaken(row)
    if row.state == ListState.IN_FORCE:
        last = last_in_force(row.supplier_id)
        if last is not None and last.pk != row.pk:
            raise NotTheLast(last)
        _restore_listed(row, tell)
        row.found = {**row.found, "left": _restore_offers(row, by, now)}
    row.state, row.undone_by, row.undone_at = ListState.UNDONE, by, now
    row.save()
    return row


def _restore_listed(row: PriceList, tell: Tell) -> None:
    """Articles as the lists before had them; those that were new with this one go."""
    write_listed(row.supplier_id, list(before(row).values()), tell)
    ListedPart.objects.filter(price_list=row).delete()


def _restore_offers(row: PriceList, by: User | None, now: datetime) -> list[str]:
    """Offers as they were; gives the parts whose offer was changed since and is left."""
    hold_catalogue()
    parts = {part.number: part for part in rows_as_written().parts}
    edits, left = [], []
    for taken in row.found.get("taken", ()):
        part = parts.get(taken["part"])
        edit = _back(part, taken, row.supplier_id) if part else None
        if edit is None:
            left.append(str(taken["part"]))
        elif edit.fields:
            edits.append(edit)
    source = say("as before the price list {file}, which was undone", file=row.name)
    change_parts(edits=edits, by=by, now=now, source=source)
    owned = row.found.get("owned", {})
    give_back({edit.was.number: owned.get(edit.was.number, {}) for edit in edits})
    return left


def _back(part: PartRow, taken: dict[str, Any], supplier: str) -> PartEdit | None:
    """A part with its offer and its list price as they were; None where the offer is another by now."""
    became, was = OfferRow.model_validate(taken["became"]), OfferRow.model_validate(taken["was"])
    if not any(offer.supplier == supplier for offer in part.offers) or offer_of(part, supplier) != became:
        return None
    offers = tuple(was if offer.supplier == supplier else offer for offer in part.offers)
    update: dict[str, object] = {"offers": offers}
    if part.list_price == Decimal(taken["list_became"]):
        update["list_price"] = Decimal(taken["list_was"])
    return PartEdit(part, part.model_copy(update=update))
