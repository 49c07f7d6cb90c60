"""The customer's links: made once shown once, and withdrawn."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.drafts import locked
from quotes.actions.refused import NothingNew
from quotes.models import Link, Quote, token_hash
from quotes.queries.people import name_of

TOKEN_BYTES = 16
"""128 bits: nobody guesses one."""
GOOD_FOR = timedelta(days=365)
"""Long enough for the build, the season after it and the next service; then a new one is made."""


@dataclass(frozen=True, slots=True)
class NewLink:
    """A link with its token. The token is not stored, so this is the only time it can be shown."""

    link: Link
    token: str


@transaction.atomic
def new_link(*, quote: Quote, by: User, now: datetime, expires_at: datetime | None = None) -> NewLink:
    """A further link to a quote that has been issued, for a year; NothingNew for one that has not."""
    row = locked(quote)
    if row.latest is None:
        raise NothingNew(say("Issue the quote first: a link shows the revision that was issued last."))
    token = secrets.token_urlsafe(TOKEN_BYTES)
    link = Link(
        quote=row,
        revision=row.latest,
        token_hash=token_hash(token),
        created_at=now,
        created_by=name_of(by),
        expires_at=expires_at or now + GOOD_FOR,
    )
    link.save(force_insert=True)
    return NewLink(link, token)


@transaction.atomic
def withdraw_link(*, link: Link, now: datetime) -> Link:
    """Close a link; it then says that it was withdrawn."""
    row = Link.objects.select_for_update().get(pk=link.pk)
    if row.withdrawn_at is None:
        row.withdrawn_at = now
        row.save(update_fields=["withdrawn_at"])
    return row
