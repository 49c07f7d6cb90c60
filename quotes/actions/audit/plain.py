"""A row as the record of changes tells of it: its fields as JSON holds them, its name, where it belongs."""

from __future__ import annotations

from collections.abc import Collection
from functools import cache
from typing import Any

from django.db import models

from quotes.models.audited import AUDITED, SECRET, passed_over

CALLED = ("number", "name", "username", "title", "code", "description", "component", "supplier", "type_code")
"""Fields that a row may be called by; the first that it has and fills."""
LONGEST_NAME = 200


@cache
def told_fields(model: type[models.Model]) -> tuple[tuple[str, str], ...]:
    """Name and attribute of every field that is told of."""
    passed = passed_over(model._meta.label_lower)
    return tuple(
        (field.name, field.attname) for field in model._meta.concrete_fields if field.name not in passed
    )


@cache
def secret_fields(model: type[models.Model]) -> frozenset[str]:
    return SECRET.get(model._meta.label_lower, frozenset())


def called(row: models.Model) -> str:
    """What a row is called, from what it has at hand: `__str__` might ask the database."""
    for name in CALLED:
        if isinstance(value := row.__dict__.get(name), str) and value:
            return value[:LONGEST_NAME]
    return ""


def under(row: models.Model) -> tuple[str, str]:
    """Type and key of the record that a row belongs to; nothing where there is none."""
    told = AUDITED[row._meta.label_lower]
    value: Any = told.under if told.under.isdigit() else row
    for step in told.under.split(".") if value is row and told.under else ():
        value = getattr(value, step, None)
    if not told.under or value is None or value == "":
        return "", ""
    return told.under_type, str(value)


def values_of(row: models.Model, only: Collection[str] | None = None) -> dict[str, Any]:
    """What a row holds by field, as far as it is at hand."""
    return {
        name: row.__dict__[attribute]
        for name, attribute in told_fields(type(row))
        if attribute in row.__dict__ and (only is None or name in only or attribute in only)
    }
