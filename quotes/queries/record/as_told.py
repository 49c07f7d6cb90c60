"""Rows that are written once, against what the record of changes said of them: none is cut or changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from itertools import islice
from typing import Any

from django.apps import apps
from django.core.exceptions import ValidationError
from django.db import models

from quotes.calc.record.chain import Told
from quotes.calc.record.fault import RecordFault
from quotes.calc.record.leaf_changes import in_short
from quotes.calc.record.plain_value import plain
from quotes.models import AuditAction, AuditEntry
from quotes.models.audited import AUDITED, EVERYTHING, NOT_SHOWN, passed_over
from quotes.models.frozen import Frozen
from quotes.queries.record.history import Saying, saying

AT_ONCE = 500
NOT_TOLD: Told = [None, None, ""]
"""Of what was empty nothing is told."""
EMPTY: tuple[Any, ...] = (None, "", [], {})


def rows_as_told() -> Iterator[tuple[RecordFault, ...]]:
    """Each such row that the record of changes has seen come. What was erased on purpose is not compared."""
    emptied = AuditEntry.objects.filter(record_type=EVERYTHING)
    since = emptied.aggregate(last=models.Max("number"))["last"] or 0
    for model in apps.get_models():
        if issubclass(model, Frozen) and model._meta.label_lower in AUDITED:
            yield from _of_model(model, since)


def _of_model(model: type[Frozen], since: int) -> Iterator[tuple[RecordFault, ...]]:
    left_out = passed_over(model._meta.label_lower) | model.LATER
    fields = {field.name: field for field in model._meta.concrete_fields if field.name not in left_out}
    all_of_it = AuditEntry.objects.filter(record_type=model._meta.label_lower, number__gt=since)
    deleted = all_of_it.filter(action=AuditAction.DELETED)
    entries = all_of_it.filter(action=AuditAction.ADDED).exclude(record_id__in=deleted.values("record_id"))
    told = entries.select_related("words").order_by("number").iterator(chunk_size=AT_ONCE)
    while some := list(islice(told, AT_ONCE)):
        keys = [entry.record_id for entry in some]
        columns = ["pk", *(field.attname for field in fields.values())]
        found = {str(row["pk"]): row for row in model._base_manager.filter(pk__in=keys).values(*columns)}
        for entry in some:
            yield tuple(_faults(entry, saying(entry), found.get(entry.record_id), fields))


def _faults(
    entry: AuditEntry,
    said: Saying,
    row: Mapping[str, Any] | None,
    fields: Mapping[str, models.Field[Any, Any]],
) -> Iterator[RecordFault]:
    name = f"{AUDITED[entry.record_type].words.capitalize()} {said.called or entry.record_id}"
    if row is None:
        yield RecordFault(name, "its row", f"the one of change {entry.number}", "none")
        return
    for path, field in fields.items():
        one, kept = said.fields.get(path, NOT_TOLD), row[field.attname]
        if isinstance(one, list) and not same(field, one[1], kept):
            yield RecordFault(name, f"{path} as told by change {entry.number}", one[1], plain(kept))


def same(field: models.Field[Any, Any], told: Any, kept: Any) -> bool:
    """Whether a column holds what was told; sums to the last place that it has room for."""
    if told == NOT_SHOWN or told == in_short(plain(kept)) or (told is None and kept in EMPTY):
        return True
    try:
        value = told if field.is_relation else field.to_python(told)
    except ValidationError:
        return False
    if isinstance(field, models.DecimalField) and isinstance(value, Decimal) and kept is not None:
        return bool(abs(value - kept) < Decimal(1).scaleb(-field.decimal_places))
    return bool(value == kept)
