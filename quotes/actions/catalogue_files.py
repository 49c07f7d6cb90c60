"""Keeps a workbook of the catalogue until it is taken in, all of it or nothing."""

from __future__ import annotations

import hashlib
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.book import take_in_book
from catalogue.calc.said import say
from catalogue.queries.book.plan import Given, Plan
from quotes.models import CatalogueFile
from quotes.queries.catalogue_uses import uses

KEPT_FOR = timedelta(days=2)
"""A workbook that was checked and not taken in is thrown away after this."""


@transaction.atomic
def keep_book(*, name: str, content: bytes, by: User, now: datetime) -> CatalogueFile:
    """Keep a workbook between its check and its press; the same bytes of the same person are kept once."""
    CatalogueFile.objects.left_lying(now - KEPT_FOR).delete()
    digest = hashlib.sha256(content).hexdigest()
    kept = CatalogueFile.objects.filter(sha256=digest, checked_by=by, applied_at=None).first()
    if kept is None:
        shortened = name.replace("\x00", "")[-200:]
        kept = CatalogueFile(name=shortened, sha256=digest, content=content, checked_by=by, checked_at=now)
        kept.save()
    return kept


@transaction.atomic
def drop_book(*, pk: int, by: User) -> None:
    """Throw away a workbook of that person which was not taken in; one that was stays."""
    CatalogueFile.objects.filter(pk=pk, checked_by=by, applied_at=None).delete()


@transaction.atomic
def take_in_kept_book(
    *, kept: CatalogueFile, given: Given, looked_at: Plan, by: User, now: datetime
) -> CatalogueFile:
    """Take in a kept workbook and note what it did; a second press changes nothing.

    Raises BookMoved where it would do something else by now.
    """
    row = CatalogueFile.objects.select_for_update().get(pk=kept.pk)
    if row.applied_at is not None:
        return row
    source = say("workbook {name}", name=row.name)
    plan = take_in_book(given=given, looked_at=looked_at, used=uses, source=source, by=by, now=now)
    row.applied_at = now
    row.added, row.changed, row.removed = len(plan.added), len(plan.changed), len(plan.removed)
    row.save()
    return row
