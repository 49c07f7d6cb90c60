"""The record of changes to be read: what entries said, and the names behind the keys in it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from django.apps import apps
from django.contrib.auth.models import User
from django.db import models

from catalogue.calc.said import say, to_say
from quotes.calc.record.chain import Told
from quotes.models import AuditEntry, AuditWords
from quotes.models.audited import AUDITED, CARDS, EVERYTHING
from quotes.queries.people import name_of
from quotes.queries.record.chained import read_told

OTHERS = {"catalogue.catalogueversion": to_say("catalogue"), EVERYTHING: to_say("all rows")}
NAMED_BY = ("number", "name", "title", "code")
Names = Mapping[tuple[str, str], str]
"""What a record is called, by type and key."""


@dataclass(frozen=True, slots=True)
class Saying:
    """What one entry said; `called` and `by` are empty where they were erased."""

    called: str
    by: str
    fields: Mapping[str, Told]


def saying(entry: AuditEntry) -> Saying:
    told = dict(read_told(entry.words.told) or {})
    called, by = told.pop(AuditWords.RECORD, ""), told.pop(AuditWords.BY, "")
    places = _places(entry.record_type)
    paths = sorted(told, key=lambda path: places.get(path.partition(".")[0], len(places)))
    return Saying(_after(called), _after(by), {path: told[path] for path in paths})


@cache
def _places(record_type: str) -> dict[str, int]:
    """The order in which a record's fields stand."""
    model = _model(record_type)
    return {field.name: place for place, field in enumerate(model._meta.concrete_fields)} if model else {}


def _model(record_type: str) -> type[models.Model] | None:
    """The model of a record's type; None where there is none any more, and for all rows together."""
    try:
        return None if record_type == EVERYTHING else apps.get_model(record_type)
    except LookupError:
        return None


def _after(one: Told) -> str:
    return str(one[1]) if isinstance(one, list) else ""


def changes_read() -> models.QuerySet[AuditEntry]:
    """Every entry with its words, the latest first."""
    return AuditEntry.objects.select_related("words").order_by("-number")


def record_words(record_type: str) -> str:
    """What a record of this type is called; the type itself where nothing is known of it any more."""
    if told := AUDITED.get(record_type):
        return say(told.words)
    if record_type in OTHERS:
        return say(OTHERS[record_type])
    model = _model(record_type)
    return say("catalogue: {card}", card=model._meta.verbose_name) if model else record_type


def record_types() -> list[tuple[str, str]]:
    """Types that something is told of, with their words."""
    cards = [model._meta.label_lower for model in apps.get_models() if hasattr(model, "search_key")]
    found = [*AUDITED, *OTHERS, *(label for label in cards if label.startswith(CARDS))]
    return sorted(((label, record_words(label)) for label in found), key=lambda pair: pair[1])


@cache
def field_of(record_type: str, path: str) -> models.Field[Any, Any] | None:
    """The field that a path begins with; None for one of a card, or one that is there no more."""
    model = _model(record_type)
    fields = model._meta.concrete_fields if model else ()
    return next((field for field in fields if field.name == path), None)


def names_behind(entries: Iterable[tuple[AuditEntry, Saying]]) -> Names:
    """What the records are called that keys lead to: one query for each type, however many there are."""
    wanted: dict[type[models.Model], set[str]] = defaultdict(set)
    for entry, said in entries:
        for path, told in said.fields.items():
            field = field_of(entry.record_type, path)
            if field is not None and field.is_relation and isinstance(told, list):
                wanted[field.related_model].update(str(key) for key in told[:2] if key is not None)  # type: ignore[index]
    names: dict[tuple[str, str], str] = {}
    for model, keys in wanted.items():
        names |= _names(model, keys)
    return names


def _names(model: type[models.Model], keys: set[str]) -> dict[tuple[str, str], str]:
    label = model._meta.label_lower
    rows = model._base_manager.filter(pk__in=keys)
    if model is User:
        return {(label, str(row.pk)): name_of(row) for row in User.objects.filter(pk__in=keys)}
    has = {field.name for field in model._meta.concrete_fields}
    named = next((name for name in NAMED_BY if name in has), None)
    pairs = rows.values_list("pk", named) if named else []
    return {(label, str(pk)): str(name) for pk, name in pairs if name}
