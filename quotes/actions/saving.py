"""Saving a checked row: what the database would refuse, or should, is refused at its field first."""

from __future__ import annotations

from collections.abc import Collection
from typing import TypeVar

from django.core.exceptions import ValidationError
from django.db import models

Row = TypeVar("Row", bound=models.Model)


def save_checked(row: Row, *, exclude: Collection[str] = ()) -> Row:
    """Check every field and constraint, then save; ValidationError with a message for each field."""
    _refuse_nul(row)
    row.full_clean(exclude=set(exclude))
    row.save()
    return row


def _refuse_nul(row: models.Model) -> None:
    """PostgreSQL can't store NUL in text, and nobody means it."""
    texts = (
        field for field in row._meta.concrete_fields if isinstance(field, models.CharField | models.TextField)
    )
    found = [field.name for field in texts if "\x00" in (getattr(row, field.attname) or "")]
    if found:
        raise ValidationError(dict.fromkeys(found, "This text holds a character that can't be stored (NUL)."))
