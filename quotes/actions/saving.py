"""Saving a checked row: what the database would refuse, or should, is refused at its field first."""

from __future__ import annotations

from collections.abc import Collection
from typing import TypeVar

from django.core.exceptions import ValidationError
from django.db import IntegrityError, models, transaction

from catalogue.calc.said import say, say_figure

Row = TypeVar("Row", bound=models.Model)


def save_checked(row: Row, *, exclude: Collection[str] = ()) -> Row:
    """Save what every field and constraint allows; ValidationError with a message for each field.

    Whether a row is the only one of its kind, the database says as it takes it, so that nobody comes between;
    only what it refuses is looked into.
    """
    try:
        _clean_fields(row, exclude)
        with transaction.atomic():
            row.save()
    except (ValidationError, IntegrityError):
        checked(row, exclude=exclude)
        raise
    return row


def checked(row: Row, *, exclude: Collection[str] = ()) -> Row:
    """The row, if every field and constraint of it can be kept; else ValidationError by field.

    Comes before a query that looks for the same text, for PostgreSQL can't be asked for a NUL either.
    """
    _refuse_text(row)
    row.full_clean(exclude=set(exclude))
    return row


def _clean_fields(row: models.Model, exclude: Collection[str]) -> None:
    """Each field by itself; that a row which is at hand is there need not be asked."""
    _refuse_text(row)
    at_hand = {
        field.name
        for field in row._meta.concrete_fields
        if isinstance(field, models.ForeignKey) and getattr(row, field.attname) and field.is_cached(row)
    }
    row.clean_fields(exclude={*exclude, *at_hand})
    row.clean()


def _refuse_text(row: models.Model) -> None:
    """NUL, which PostgreSQL can't store and nobody means, and texts longer than their field says.

    Django checks the length of a line but not of a text, and neither for NUL.
    """
    faults = {}
    for field in row._meta.concrete_fields:
        text = getattr(row, field.attname)
        if not isinstance(field, models.CharField | models.TextField) or not isinstance(text, str):
            continue
        if "\x00" in text:
            faults[field.name] = say("This text holds a character that can't be stored (NUL).")
        elif field.max_length is not None and len(text) > field.max_length:
            faults[field.name] = say(
                "This has {count} characters; at most {most} are kept.",
                count=say_figure(len(text), 0),
                most=say_figure(field.max_length, 0),
            )
    if faults:
        raise ValidationError(faults)
