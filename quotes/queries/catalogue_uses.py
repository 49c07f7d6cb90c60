"""What the workshop's records refer to in the catalogue: while they do, the entry stays."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from django.apps import apps
from django.db import models
from django.db.models.functions import Cast

from catalogue.models.base import Entry
from catalogue.queries.shapes import SHAPES

COLUMNS: Mapping[str, tuple[str, ...]] = {
    "engine_types": ("type_code", "engine_type"),
    "tiers": ("tier", "fitted"),
    "duties": ("duty", "ran_before_duty"),
    "components": ("component", "stopped_by"),
    "operations": ("operation",),
    "machine_work": ("machine_work",),
    "suppliers": ("supplier",),
    "parts": ("part_number",),
    "limits": ("limit_code",),
    "findings": ("finding_code",),
}
"""By kind, what a column is called that holds its code: in every model, also one that comes later."""
REQUESTS = "request"
"""The column with what was asked for, which may name any code."""


def uses(kind: str, codes: Collection[str]) -> dict[str, str]:
    """Of these codes, those that a record refers to, and what kind of record it is."""
    found: dict[str, str] = {}
    for model, column in _columns(kind):
        named = model._default_manager.filter(**{f"{column}__in": list(codes)})
        for code in named.values_list(column, flat=True).distinct():
            found.setdefault(str(code), str(model._meta.verbose_name))
    for model in _models():
        if any(field.name == REQUESTS for field in model._meta.concrete_fields):
            asked = model._default_manager.annotate(asked=Cast(REQUESTS, models.TextField()))
            for code in codes:
                if code not in found and asked.filter(asked__contains=f'"{code}"').exists():
                    found[code] = str(model._meta.verbose_name)
    return found


def _models() -> Iterator[type[models.Model]]:
    """All but the catalogue's own entries and their lines, which are checked among each other."""
    own = {lines.model for shape in SHAPES.values() for lines in shape.lines}
    for model in apps.get_models():
        of_ours = model._meta.app_label in ("quotes", "catalogue")
        if of_ours and model not in own and not issubclass(model, Entry):
            yield model


def _columns(kind: str) -> Iterator[tuple[type[models.Model], str]]:
    for model in _models():
        for field in model._meta.concrete_fields:
            points: Any = field.related_model
            if points is SHAPES[kind].model or (points is None and field.name in COLUMNS.get(kind, ())):
                yield model, field.attname
