"""Writes rows of the catalogue into their entries and lines, in bulk, and counts the version up."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from django.conf import settings
from django.db.models import Max
from django.utils import translation

from catalogue.calc.rows.kinds import Row
from catalogue.calc.said import say
from catalogue.calc.search_key import search_key
from catalogue.models import CatalogueVersion, Change
from catalogue.models.base import Entry
from catalogue.queries.shapes import SHAPES, Shape, to_columns
from catalogue.queries.shapes.shape import at

MARK_BYTES = 8


@dataclass(frozen=True, slots=True)
class Written:
    """One row to write, the version it gets, and its place in the list."""

    row: Row
    version: int
    place: int


def write_rows(*, written: Mapping[str, Sequence[Written]]) -> None:
    """Write rows by kind. Entries first, then lines: any entry may point at any other.

    Lines of a row are replaced as a whole. Call it inside a transaction.
    """
    for kind, shape in SHAPES.items():
        _write_entries(shape, written.get(kind, ()))
    for kind, shape in SHAPES.items():
        _write_lines(shape, written.get(kind, ()))


def _write_entries(shape: Shape, written: Sequence[Written]) -> None:
    entries = [_entry(shape, one) for one in written]
    if not entries:
        return
    columns = [field.name for field in shape.model._meta.concrete_fields if not field.primary_key]
    shape.model._default_manager.bulk_create(
        entries, update_conflicts=True, unique_fields=["code"], update_fields=columns, batch_size=200
    )


def _entry(shape: Shape, one: Written) -> Entry:
    columns = to_columns(shape, one.row)
    dump = one.row.model_dump()
    words = in_every_language(str(at(dump, path) or "") for path in shape.searched)
    key = search_key(*words)[: shape.model._meta.get_field("search_key").max_length]
    return shape.model(**columns, search_key=key, version=one.version, place=one.place)


def in_every_language(words: Iterable[str]) -> list[str]:
    """Shipped words as each language of the site has them, so that what a page shows is found by it."""
    found = dict.fromkeys(filter(None, words))
    for language, _ in settings.LANGUAGES:
        with translation.override(language):
            found |= dict.fromkeys([say(word) for word in list(found)])
    return list(found)


def _write_lines(shape: Shape, written: Sequence[Written]) -> None:
    if not written:
        return
    codes = [shape.code_of(one.row) for one in written]
    dumps = [(code, one.row.model_dump()) for code, one in zip(codes, written, strict=True)]
    for lines in shape.lines:
        table = lines.model._default_manager
        for some in _in_lots(codes):
            table.filter(**{f"{lines.owner}__in": some}).delete()
        table.bulk_create(
            [
                lines.model(**{lines.owner: code}, **line)
                for code, dump in dumps
                for line in lines.split(dump)
            ],
            batch_size=200,
        )


def _in_lots(codes: Sequence[str], size: int = 500) -> Iterable[Sequence[str]]:
    return (codes[start : start + size] for start in range(0, len(codes), size))


def last_versions(kind: str) -> dict[str, int]:
    """The last version of each entry that there is, or that went: one that comes again counts on from it."""
    changed = Change.objects.filter(kind=kind).order_by().values_list("entry").annotate(Max("version"))
    there = SHAPES[kind].model._default_manager.values_list("code", "version")
    return {**dict(changed), **dict(there)}


def count_up() -> None:
    """Mark the catalogue as changed. Call it inside the transaction that changed it."""
    row, _ = CatalogueVersion.objects.select_for_update().get_or_create(id=1)
    row.number += 1
    row.mark = secrets.token_hex(MARK_BYTES)
    row.save()
