"""Taking a checked list in, all of it or nothing: at once, or on the day that it is in force from."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.lives import hold_lives as hold_catalogue
from catalogue.actions.parts import PartEdit, change_parts
from catalogue.actions.price_list.checking import (
    Changes,
    Tell,
    counts_of,
    held_against,
    yes_of,
)
from catalogue.actions.price_list.handing_in import locked_list
from catalogue.actions.price_list.refused import AlreadyTaken, Moved, NothingToTake
from catalogue.actions.price_list.rows import keep_history, write_listed
from catalogue.calc.price_list.difference import Difference, Rule
from catalogue.calc.price_list.offers import OfferChange
from catalogue.calc.price_list.reading import ReadList
from catalogue.calc.price_list.shown import offers_at, shown_offer
from catalogue.calc.said import say
from catalogue.models import ListState, PriceList
from catalogue.queries.price_lists import last_in_force
from catalogue.queries.rows import version


def say_nothing(done: int, of: int) -> None:
    """For who does not ask how far it has come."""


@transaction.atomic
def take_list(
    *, pk: int, given: ReadList, by: User | None, on: date, now: datetime, tell: Tell = say_nothing
) -> PriceList:
    """Do what was shown. A list that is in force from a later day than `on` waits for it.

    Raises AlreadyTaken, Moved where it would do something else now, NothingToTake.
    """
    row = locked_list(pk)
    if row.state != ListState.CHECKED or row.in_force_from is None:
        raise AlreadyTaken(row)
    row.applied_by, row.applied_at = by, now
    if row.in_force_from > on:
        row.state = ListState.DUE
        row.save(update_fields=["applied_by", "applied_at", "state"])
        return row
    other = last_in_force(row.supplier_id)
    if row.after_id != (other.pk if other else None):
        raise Moved(row, other)
    found, changes = held_against(row, given, _agreed(row), yes_of(row))
    _insist_on_what_was_shown(row, found, changes, given)
    _bring_into_force(row, found, changes, by, now, tell)
    return row


@transaction.atomic
def bring_due_into_force(*, pk: int, given: ReadList, now: datetime, tell: Tell = say_nothing) -> PriceList:
    """A list whose day has come, at the rate and with the yes that were agreed to.

    What stands may be something else by now; what jumps against that waits for a yes like any other.
    """
    row = locked_list(pk)
    if row.state != ListState.DUE:
        raise AlreadyTaken(row)
    found, changes = held_against(row, given, _agreed(row), yes_of(row))
    row.counts = counts_of(found, given)
    _bring_into_force(row, found, changes, row.applied_by, now, tell)
    return row


def _agreed(row: PriceList) -> Rule:
    """As it was checked, whatever rate was set since."""
    jump = Decimal(row.supplier.list_terms.jump_percent)
    rate = None if row.rate is None else Decimal(row.rate)
    return Rule(row.currency, rate, jump, whole=row.whole)


def _insist_on_what_was_shown(row: PriceList, found: Difference, changes: Changes, given: ReadList) -> None:
    shown = {one.part: one for one in offers_at(row.found, yes_of(row).keys())}
    now = {
        one.number: shown_offer(one, held=shown[one.number].held)
        for one in changes.now
        if one.number in shown
    }
    if counts_of(found, given) != row.counts or now != shown or len(now) != len(changes.now):
        raise Moved(row)
    if not found.changes_something:
        raise NothingToTake(row)


def _bring_into_force(
    row: PriceList, found: Difference, changes: Changes, by: User | None, now: datetime, tell: Tell
) -> None:
    row.after = last_in_force(row.supplier_id)
    write_listed(row.supplier_id, [(row.pk, one) for one in (*found.write, *found.gone)], tell)
    keep_history(row.pk)
    hold_catalogue()
    if version() != changes.at_version:
        # Somebody changed a card while the rows were written: its offer must not be overwritten unseen.
        raise Moved(row)
    owned = change_parts(edits=_edits(row, changes.now), by=by, now=now, source=source_of(row))
    row.found = {**row.found, "taken": [_taken(row, one) for one in changes.now], "owned": owned}
    row.state = ListState.IN_FORCE
    row.save()
    _forget_bytes(row)


def source_of(row: PriceList) -> str:
    """Where an offer has its cost from, in words that are kept beside it."""
    return say("price list {file}, in force from {day}", file=row.name, day=f"{row.in_force_from:%Y-%m-%d}")


def _edits(row: PriceList, changes: Sequence[OfferChange]) -> list[PartEdit]:
    """The parts as they become, their offer with where its cost is from."""
    edits = []
    for one in changes:
        offers = tuple(
            offer.model_copy(update={"source": source_of(row)}) if offer.supplier == one.supplier else offer
            for offer in one.becomes.offers
        )
        edits.append(PartEdit(one.was, one.becomes.model_copy(update={"offers": offers})))
    return edits


def _taken(row: PriceList, one: OfferChange) -> dict[str, object]:
    """What undoing goes back to, and by what it knows that nobody has changed it since."""
    (edit,) = _edits(row, [one])
    supplier = one.supplier
    return {
        "part": one.number,
        "was": one.offer_was.model_dump(mode="json"),
        "became": next(o for o in edit.becomes.offers if o.supplier == supplier).model_dump(mode="json"),
        "list_was": str(one.was.list_price),
        "list_became": str(one.becomes.list_price),
    }


def _forget_bytes(row: PriceList) -> None:
    """The file stays until the supplier's next list is in force: its refused rows are still asked for."""
    older = PriceList.objects.filter(supplier=row.supplier_id).exclude(pk=row.pk)
    for old in older.exclude(content=b"").filter(state__in=(ListState.IN_FORCE, ListState.UNDONE)).told():
        old.content = b""
        old.save(update_fields=["content"])
