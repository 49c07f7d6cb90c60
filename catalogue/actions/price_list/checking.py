"""Holding a list that was read against what stands, and keeping what it would do, to be shown."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from decimal import Decimal
from operator import attrgetter

from django.db import transaction

from catalogue.actions.price_list.handing_in import open_list
from catalogue.actions.price_list.refused import NoRate
from catalogue.calc.price_list.difference import Difference, Rule, difference
from catalogue.calc.price_list.listed import number_key
from catalogue.calc.price_list.offers import Find, OfferChange, asked_now, offer_changes, offers_of
from catalogue.calc.price_list.reading import ReadList
from catalogue.calc.price_list.refused import under_heads
from catalogue.calc.price_list.shown import ShownOffer, kept, shown_offer
from catalogue.calc.price_list.standing import Stands
from catalogue.models import HeldPrice, ListState, ListTerms, PriceList
from catalogue.queries.price_lists import last_in_force, own_currency, set_rate_for, standing
from catalogue.queries.resolved import rows_as_written

AT_ONCE = 500


@transaction.atomic
def check_list(*, pk: int, given: ReadList, on: date, now: datetime) -> PriceList:
    """Keep what a list would do from that day on. A yes that was given to the same price stays.

    Raises NoRate, or AlreadyTaken where it does not wait any more.
    """
    row = open_list(pk)
    rule = rule_of(row, row.supplier.list_terms, on)
    found, changes = held_against(row, given, rule, yes_of(row))
    note_found(row, given, found, changes)
    row.state, row.in_force_from, row.checked_at = ListState.CHECKED, on, now
    row.currency, row.rate = rule.currency, rule.rate
    row.after = last_in_force(row.supplier_id)
    row.save()
    return row


def note_found(row: PriceList, given: ReadList, found: Difference, changes: Changes) -> None:
    """Note with the list what it does, to be shown, and what it holds back."""
    row.counts = counts_of(found, given)
    refused = under_heads(found.refused, row.reading.get("heads", {}))
    found.refused = sorted((*given.rejected, *refused), key=attrgetter("line"))
    row.found = kept(found, changes.shown, changes.gone, changes.find) | {"cautions": list(given.cautions)}
    _keep_held(row, found)


def rule_of(row: PriceList, terms: ListTerms, on: date) -> Rule:
    """How the list is taken on that day. NoRate where its currency has none."""
    own = own_currency()
    currency = str(row.reading.get("currency") or terms.currency or own)
    rate = None
    if currency != own:
        rate = set_rate_for(currency, on)
        if rate is None:
            raise NoRate(currency, own, on)
    return Rule(currency, rate.rate if rate else None, Decimal(terms.jump_percent), whole=row.whole)


def yes_of(row: PriceList) -> dict[str, Decimal]:
    """The prices that the owner has said yes to, by key."""
    said = HeldPrice.objects.filter(price_list=row).exclude(yes_at=None)
    return dict(said.values_list("number_key", "becomes"))


class Changes:
    """What a list does to the catalogue's offers: with the yes that is there, and all that may be shown."""

    def __init__(self, row: PriceList, found: Difference, stands: Mapping[str, Stands]) -> None:
        rows, supplier = rows_as_written(), row.supplier_id
        parts, self.at_version = rows.parts, rows.version
        after = {one.number_key: one for one in (*found.write, *found.gone)}
        touched = {one.number_key for one in found.write}
        self.find = find_in(after, stands)
        self.now = offer_changes(parts, supplier, self.find, touched)
        self.held: tuple[OfferChange, ...] = ()
        if found.would_be:
            with_yes = find_in({**after, **found.would_be}, stands)
            changed = offer_changes(parts, supplier, with_yes, touched | found.would_be.keys())
            self.held = tuple(one for one in changed if one.key in found.would_be)
        lost = {one.number_key for one in found.gone}
        self.gone = [part.number for key, part, _ in offers_of(parts, supplier) if key in lost]

    @property
    def shown(self) -> list[ShownOffer]:
        without = [shown_offer(one, held=False) for one in self.now]
        return without + [shown_offer(one, held=True) for one in self.held]


def find_in(first: Mapping[str, Stands], then: Mapping[str, Stands]) -> Find:
    """What is listed under a key: as the list makes it, else as it stands."""
    return lambda key: first.get(key) or then.get(key)


def held_against(
    row: PriceList, given: ReadList, rule: Rule, yes: Mapping[str, Decimal]
) -> tuple[Difference, Changes]:
    """The list against what stands at the moment."""
    found, stands = difference_now(row, given, rule, yes)
    return found, Changes(row, found, stands)


def difference_now(
    row: PriceList, given: ReadList, rule: Rule, yes: Mapping[str, Decimal]
) -> tuple[Difference, dict[str, Stands]]:
    """What the list does to what is listed at the moment, and that."""
    stands = standing(row.supplier_id)
    found = difference(
        given.rows,
        stands,
        rule,
        offered=asked_now(rows_as_written().parts, row.supplier_id),
        yes=yes,
        unread=_unread(row, given),
    )
    return found, stands


def _unread(row: PriceList, given: ReadList) -> set[str]:
    """Keys of the rows that could not be read, as far as their number can."""
    place: int | None = row.reading.get("columns", {}).get("number")
    if place is None:
        return set()
    return {number_key(one.cells[place]) for one in given.rejected if len(one.cells) > place}


def counts_of(found: Difference, given: ReadList) -> dict[str, int]:
    """Every line of the file counted once, and what is gone besides."""
    refused = found.counts["refused"] + len({one.line for one in given.rejected})
    return {**found.counts, "refused": refused, "lines": given.lines, "passed_over": given.passed_over}


def _keep_held(row: PriceList, found: Difference) -> None:
    said = {
        key: (becomes, by, at)
        for key, becomes, by, at in HeldPrice.objects.filter(price_list=row)
        .exclude(yes_at=None)
        .values_list("number_key", "becomes", "yes_by", "yes_at")
    }
    row.held_prices.all().delete()
    rows = []
    for one in found.held:
        becomes, by, at = said.get(one.key, (None, None, None))
        same = becomes == one.becomes
        rows.append(
            HeldPrice(
                price_list=row,
                number_key=one.key,
                number=one.number,
                name=one.name,
                line=one.line,
                was=one.was,
                becomes=one.becomes,
                yes_by_id=by if same else None,
                yes_at=at if same else None,
            )
        )
    HeldPrice.objects.bulk_create(rows, batch_size=AT_ONCE)


Tell = Callable[[int, int], None]
"""Told how many rows are written, and of how many."""
