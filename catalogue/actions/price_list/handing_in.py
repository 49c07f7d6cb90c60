"""Keeping a file that was handed in, how it is to be read, and the owner's yes to what it holds."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Mapping
from datetime import datetime, timedelta
from types import MappingProxyType
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.dropping import drop_file_later
from catalogue.actions.price_list.refused import AlreadyTaken
from catalogue.models import HeldPrice, ListState, ListTerms, PriceList
from catalogue.models.price_list import WAITING
from catalogue.queries.price_lists import last_in_force

KEPT_FOR = timedelta(days=60)
"""A file that was handed in and not taken in is dropped after this."""
OPEN = (ListState.HANDED_IN, ListState.CHECKED)
NOT_YET = WAITING
"""A yes may be said and taken back."""


def locked_terms(supplier: str) -> ListTerms:
    """The terms of a supplier's lists; nobody else takes one of them in until the transaction is over."""
    ListTerms.objects.get_or_create(supplier_id=supplier)
    return ListTerms.objects.select_for_update().get(supplier_id=supplier)


@transaction.atomic
def hand_in(
    *,
    supplier: str,
    name: str,
    content: bytes,
    by: User | None,
    now: datetime,
    first_lines: Mapping[str, str] = MappingProxyType({}),
) -> PriceList:
    """Keep a file; the same bytes that still wait are kept once."""
    locked_terms(supplier)
    for old in PriceList.objects.left_lying(now - KEPT_FOR):
        _drop(old)
    digest = hashlib.sha256(content).hexdigest()
    same = PriceList.objects.filter(supplier=supplier, sha256=digest, state__in=OPEN).told().first()
    if same is not None:
        return same
    row = PriceList(
        supplier_id=supplier,
        name=name.replace("\x00", "")[-200:],
        first_lines=dict(first_lines),
        handed_in_by=by,
        handed_in_at=now,
    )
    row.put(content)
    row.save()
    return row


def keep_first_lines(*, pk: int, first_lines: Mapping[str, str]) -> None:
    """Keep what was read of another sheet of a list that still waits."""
    PriceList.objects.filter(pk=pk, state__in=OPEN).update(first_lines=dict(first_lines))


@transaction.atomic
def keep_reading(*, pk: int, reading: Mapping[str, Any], whole: bool = True) -> PriceList:
    """Keep how a list is to be read, for it and for the supplier's next. It has to be checked again."""
    row = open_list(pk)
    terms = row.supplier.list_terms
    terms.reading = dict(reading)
    terms.save()
    row.reading, row.whole, row.state = dict(reading), whole, ListState.HANDED_IN
    row.save(update_fields=["reading", "whole", "state"])
    return row


@transaction.atomic
def set_whole(*, pk: int, whole: bool) -> PriceList:
    """Keep whether a list is all that its supplier has; what it leaves out is gone then."""
    row = open_list(pk)
    row.whole = whole
    row.save(update_fields=["whole"])
    return row


@transaction.atomic
def drop_list(*, pk: int) -> PriceList:
    """Throw away a file that was not taken in; that it was handed in stays known.

    How it was read is forgotten: it may have been another supplier's.
    """
    row = open_list(pk)
    terms, last = row.supplier.list_terms, last_in_force(row.supplier_id)
    if terms.reading == row.reading:
        terms.reading = last.reading if last else {}
        terms.save()
    _drop(row)
    return row


def _drop(row: PriceList) -> None:
    row.first_lines, row.state = {}, ListState.DROPPED
    let_go(row, "first_lines", "state")
    row.held_prices.all().delete()


def let_go(row: PriceList, *more: str) -> None:
    """The file's bytes go, once that is kept; that it was handed in stays known. `more` is saved with it."""
    drop_file_later(row.let_go())
    row.save(update_fields=["held", "place", *more])


def locked_list(pk: int) -> PriceList:
    """A list without its bytes, and nobody else's until the transaction is over."""
    locked_terms(PriceList.objects.values_list("supplier", flat=True).get(pk=pk))
    return PriceList.objects.defer("held").get(pk=pk)


def open_list(pk: int, states: Collection[str] = OPEN) -> PriceList:
    """A list that still waits, its supplier's terms locked. AlreadyTaken where it does not wait any more."""
    row = locked_list(pk)
    if row.state not in states:
        raise AlreadyTaken(row)
    return row


@transaction.atomic
def say_yes(*, pk: int, keys: Collection[str] | None, by: User, now: datetime) -> PriceList:
    """The owner's yes to held prices: those named, or all where none are; a yes is said once."""
    row = open_list(pk, NOT_YET)
    waiting = HeldPrice.objects.filter(price_list=row, yes_at=None)
    if keys is not None:
        waiting = waiting.filter(number_key__in=keys)
    if waiting.update(yes_by=by, yes_at=now):
        _count_yes(row)
    return row


@transaction.atomic
def take_yes_back(*, pk: int, key: str) -> PriceList:
    """The price is held again."""
    row = open_list(pk, NOT_YET)
    if HeldPrice.objects.filter(price_list=row, number_key=key).update(yes_by=None, yes_at=None):
        _count_yes(row)
    return row


def _count_yes(row: PriceList) -> None:
    said = HeldPrice.objects.filter(price_list=row).exclude(yes_at=None).count()
    row.counts = {**row.counts, "yes": said}
    row.save(update_fields=["counts"])
