"""Writes on drafts: keeping a quote, and changing one that others may be changing too."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.calc.search_key import search_key
from quotes.actions.engines import refuse_other_engine
from quotes.actions.refused import AlreadyAccepted, StaleDraft
from quotes.actions.saving import save_checked
from quotes.calc.ask.request import Request
from quotes.calc.ask.request_changes import request_changes
from quotes.models import Customer, Engine, Quote
from quotes.queries.people import name_of
from quotes.queries.sheets import request_of


def stored(request: Request) -> dict[str, Any]:
    """A request as it is kept in the database."""
    return request.model_dump(mode="json", by_alias=True)


@transaction.atomic
def keep_quote(*, customer: Customer, engine: Engine, request: Request, by: User, now: datetime) -> Quote:
    """Keep what was worked out as a draft. The same once more (a second press) gives the same draft.

    ValidationError where the engine is another customer's or of another type than the request says.
    """
    engine = Engine.objects.select_for_update().get(pk=engine.pk)
    refuse_other_engine(customer, engine, request)
    as_kept = stored(request)
    for draft in Quote.objects.filter(engine=engine, created_by=by, version=1, latest=None, closed_at=None):
        if draft.request == as_kept:
            return draft
    return save_checked(
        Quote(
            customer=customer,
            engine=engine,
            request=as_kept,
            created_by=by,
            created_at=now,
            edited_at=now,
            edited_by=name_of(by),
        )
    )


def locked(quote: Quote) -> Quote:
    """The quote's row, locked until the transaction ends."""
    return Quote.objects.select_for_update().get(pk=quote.pk)


def refuse_accepted(quote: Quote) -> None:
    """AlreadyAccepted where the quote has its yes."""
    if quote.accepted_at is not None:
        raise AlreadyAccepted(quote.acceptance)


@transaction.atomic
def save_draft(*, quote: Quote, request: Request, expected_version: int, by: User, now: datetime) -> Quote:
    """Put another request in the draft's place.

    StaleDraft where somebody has kept another change since `expected_version`; it tells theirs from yours.
    What is the same as stored is no change, whoever sends it.
    """
    row = locked(quote)
    refuse_accepted(row)
    as_kept = stored(request)
    if row.request == as_kept:
        return row
    if row.version != expected_version:
        raise StaleDraft(request_changes(request_of(row), request), row.edited_by, row.version)
    row.request = as_kept
    row.version += 1
    row.edited_at, row.edited_by = now, name_of(by)
    row.save(update_fields=["request", "version", "edited_at", "edited_by"])
    return row


@transaction.atomic
def close_quote(*, quote: Quote, now: datetime) -> Quote:
    """Take a quote back: it can no longer be accepted. One that has its yes can't be taken back."""
    row = locked(quote)
    refuse_accepted(row)
    if row.closed_at is None:
        row.closed_at = now
        row.save(update_fields=["closed_at"])
    return row


def number_key(number: str) -> str:
    """What a search for a quote's number compares: with and without its dashes."""
    return search_key(number, number.replace("-", ""))
