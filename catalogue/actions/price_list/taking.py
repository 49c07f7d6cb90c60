"""Taking a checked list in, all of it or nothing: at once, or on the day that it is in force from."""

from __future__ import annotations

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
    note_found,
    yes_of,
)
from catalogue.actions.price_list.handing_in import let_go, locked_list
from catalogue.actions.price_list.refused import AlreadyTaken, Moved, NothingToTake
from catalogue.actions.price_list.rows import keep_history, write_listed
from catalogue.calc.price_list.difference import Difference, Rule
from catalogue.calc.price_list.offers import OfferChange, offer_of
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
    found, changes = held_against(row, given, agreed_rule(row), yes_of(row))
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
    found, changes = held_against(row, given, agreed_rule(row), yes_of(row))
    note_found(row, given, found, changes)
    # Lists in force stand in the order in which they came into force, not in that of the presses.
    row.applied_at = now
    _bring_into_force(row, found, changes, row.applied_by, now, tell)
    return row


def agreed_rule(row: PriceList) -> Rule:
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
    take_offers(row, changes, source_of(row, row.in_force_from), by, now)
    row.state, row.first_lines = ListState.IN_FORCE, {}
    row.save()
    _forget_bytes(row)


def take_offers(row: PriceList, changes: Changes, source: str, by: User | None, now: datetime) -> None:
    """Let the catalogue's offers follow, and note with the list what undoing it goes back to.

    Moved where somebody changed a card while the rows were written: its offer must not be overwritten unseen.
    """
    hold_catalogue()
    if version() != changes.at_version:
        raise Moved(row)
    edits = {one.number: _edit(one, source) for one in changes.now}
    owned = change_parts(edits=list(edits.values()), by=by, now=now, source=source)
    before = {one["part"]: one for one in row.found.get("taken", ())}
    taken = {one.number: _taken(edits[one.number], one) for one in changes.now}
    for part in taken.keys() & before.keys():
        # It followed this list before: undone, it goes back to what stood before the list.
        taken[part] |= {name: before[part][name] for name in ("was", "list_was")}
    for part, fields in row.found.get("owned", {}).items():
        owned[part] = owned.get(part, {}) | fields
    row.found = {**row.found, "taken": list((before | taken).values()), "owned": owned}


def source_of(row: PriceList, day: date | None) -> str:
    """Where an offer has its cost from, in words that are kept beside it."""
    return say("price list {file}, in force from {day}", file=row.name, day=f"{day:%Y-%m-%d}")


def _edit(one: OfferChange, source: str) -> PartEdit:
    """The part as it becomes, its offer with where its cost is from."""
    offers = tuple(
        offer.model_copy(update={"source": source}) if offer.supplier == one.supplier else offer
        for offer in one.becomes.offers
    )
    return PartEdit(one.was, one.becomes.model_copy(update={"offers": offers}))


def _taken(edit: PartEdit, one: OfferChange) -> dict[str, object]:
    """What undoing goes back to, and by what it knows that nobody has changed it since."""
    return {
        "part": one.number,
        "was": one.offer_was.model_dump(mode="json"),
        "became": offer_of(edit.becomes, one.supplier).model_dump(mode="json"),
        "list_was": str(one.was.list_price),
        "list_became": str(one.becomes.list_price),
    }


def _forget_bytes(row: PriceList) -> None:
    """The file stays until the supplier's next list is in force: its refused rows are still asked for."""
    older = PriceList.objects.filter(supplier=row.supplier_id).exclude(pk=row.pk)
    done_with = older.filter(state__in=(ListState.IN_FORCE, ListState.UNDONE))
    for old in done_with.exclude(held=b"", place="").told():
        let_go(old)
