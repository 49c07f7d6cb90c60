"""Keeping a file between its check and the press that takes it in, and throwing it away."""

from __future__ import annotations

import hashlib
from datetime import datetime, timedelta
from typing import Any, TypeVar

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import QuerySet

from catalogue.actions.dropping import drop_file_later
from quotes.models.handed_in import HandedIn

KEPT_FOR = timedelta(days=2)
"""A file that was checked and not taken in is thrown away after this."""
Kind = TypeVar("Kind", bound=HandedIn)


@transaction.atomic
def keep_file(kind: type[Kind], *, name: str, content: bytes, by: User, now: datetime) -> Kind:
    """Keep a file until its press; the same bytes of the same person are kept once."""
    _throw_away(kind.left_lying(now - KEPT_FOR))
    digest = hashlib.sha256(content).hexdigest()
    kept = kind.objects.filter(sha256=digest, checked_by=by, applied_at=None).first()
    if kept is None:
        shortened = name.replace("\x00", "")[-200:]
        kept = kind(name=shortened, checked_by=by, checked_at=now)
        kept.put(content)
        kept.save()
    return kept


@transaction.atomic
def drop_file(kind: type[HandedIn], *, pk: int, by: User) -> None:
    """Throw away a file of that person which was not taken in; one that was stays."""
    _throw_away(kind.objects.filter(pk=pk, checked_by=by, applied_at=None))


def _throw_away(files: QuerySet[Any]) -> None:
    """The rows, and once that is kept what lies outside of the database."""
    places = [*files.values_list("place", flat=True)]
    files.delete()
    for place in places:
        drop_file_later(place)
