"""Takes a kept workbook of the catalogue in, all of it or nothing."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.book import take_in_book
from catalogue.calc.said import say
from catalogue.queries.book.plan import BookGiven, BookPlan
from quotes.models import CatalogueFile
from quotes.queries.catalogue_uses import uses


@transaction.atomic
def take_in_kept_book(
    *, kept: CatalogueFile, given: BookGiven, looked_at: BookPlan, by: User, now: datetime
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
