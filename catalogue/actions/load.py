"""Loads a whole catalogue: everything is checked first, then written in one transaction."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.changed import CardChange, card_changed, catalogue_loaded
from catalogue.actions.entries import Written, count_up, last_versions, write_rows
from catalogue.actions.refused import ChecksFailed, OtherCurrency
from catalogue.calc.checks import check
from catalogue.calc.merge import Kept, Merged, merge
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.kinds import Row
from catalogue.models import Basis, CatalogueVersion, Change, OwnValue
from catalogue.queries.rows import rows_of
from catalogue.queries.shapes import SHAPES, Shape

Own = Mapping[str, Mapping[str, Sequence[str]]]
"""Fields that the workshop set itself, by kind and code."""


@dataclass(frozen=True, slots=True)
class KindReport:
    """What loading did to one kind."""

    kind: str
    added: int
    changed: int
    unchanged: int


@dataclass(frozen=True, slots=True)
class LoadReport:
    """What loading did, kind by kind, and the workshop's own values that it left alone."""

    kinds: tuple[KindReport, ...]
    kept: tuple[Kept, ...]
    own_entries: tuple[tuple[str, str], ...]
    """Kind and code of entries that only the workshop has."""


@transaction.atomic
def load_rows(
    *, rows: CatalogueRows, now: datetime, overwrite: bool = False, by: User | None = None
) -> LoadReport:
    """Write what is new or changed in `rows`; the workshop's own values stay unless `overwrite` is set.

    Raises OtherCurrency when own prices stand in another currency, ChecksFailed when own values do not
    go together with the shipped ones. Nothing is written then.
    """
    own = {} if overwrite else _own_fields()
    _refuse_other_currency(rows, own)
    merged = {kind: _merged(shape, rows, own.get(kind, {})) for kind, shape in SHAPES.items()}
    _check(rows, merged)
    if any(one.added or one.changed for one in merged.values()):
        _write(merged, rows, now, by)
        count_up()
    _remember_shipped(rows, merged, overwrite=overwrite)
    return _report(merged)


def _own_fields() -> dict[str, dict[str, list[str]]]:
    own: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for kind, entry, field in OwnValue.objects.values_list("kind", "entry", "field"):
        own[kind][entry].append(field)
    return own


def _refuse_other_currency(rows: CatalogueRows, own: Own) -> None:
    present = Basis.objects.values_list("currency", flat=True).first()
    priced = [code for kind in ("parts", "machine_work") for code in own.get(kind, {})]
    if present and present != rows.currency and priced:
        raise OtherCurrency(present, rows.currency, priced)


def shipped_by_code(shape: Shape, rows: CatalogueRows) -> dict[str, Row]:
    """The shipped rows of one kind by code."""
    found = getattr(rows, shape.kind)
    return {shape.code_of(row): row for row in (found if isinstance(found, tuple) else (found,))}


def _merged(shape: Shape, rows: CatalogueRows, own: Mapping[str, Sequence[str]]) -> Merged:
    present = {shape.code_of(row): row for row in rows_of(shape)}
    return merge(shape.kind, shipped_by_code(shape, rows), present, own)


def _check(rows: CatalogueRows, merged: Mapping[str, Merged]) -> None:
    together: dict[str, Any] = {kind: tuple(one.rows.values()) for kind, one in merged.items()}
    together["basis"] = together["basis"][0]
    if faults := check(rows.model_copy(update=together)):
        raise ChecksFailed(faults)


def _write(merged: Mapping[str, Merged], rows: CatalogueRows, now: datetime, by: User | None) -> None:
    written: dict[str, list[Written]] = {}
    changes: list[Change] = []
    for kind, one in merged.items():
        shape = SHAPES[kind]
        places = {code: place for place, code in enumerate(shipped_by_code(shape, rows))}
        versions = last_versions(kind)
        written[kind] = [
            Written(one.rows[code], versions.get(code, 0) + 1, places[code])
            for code in (*one.added, *one.changed)
        ]
        changes += _changes(shape, one, versions, now, by)
    write_rows(written=written)
    Change.objects.bulk_create(changes, batch_size=500)
    _tell(merged, changes)


def _tell(merged: Mapping[str, Merged], changes: Sequence[Change]) -> None:
    """Each changed card by itself; those that are new, which are many, by their number."""
    pairs: dict[tuple[str, str], dict[str, tuple[Any, Any]]] = defaultdict(dict)
    for one in changes:
        pairs[one.kind, one.entry][one.field] = (one.was, one.became)
    for (kind, code), fields in pairs.items():
        name = str(getattr(merged[kind].rows[code], "name", ""))
        card = CardChange(SHAPES[kind].model, code, name, fields)
        card_changed.send(sender=card.model, card=card)
    counts = {f"{kind}.added": len(one.added) for kind, one in merged.items()}
    counts |= {f"{kind}.changed": len(one.changed) for kind, one in merged.items()}
    catalogue_loaded.send(sender=CatalogueVersion, counts=counts)


def _changes(
    shape: Shape, merged: Merged, versions: Mapping[str, int], now: datetime, by: User | None
) -> list[Change]:
    before = {shape.code_of(row): row for row in rows_of(shape, merged.changed)} if merged.changed else {}
    return [
        Change(
            kind=shape.kind,
            entry=code,
            version=versions[code] + 1,
            field=field,
            was=plain(before[code], field),
            became=plain(merged.rows[code], field),
            by=by,
            at=now,
        )
        for code, fields in merged.changed.items()
        for field in fields
    ]


def plain(row: Row, field: str) -> Any:
    """The value of a row's field as JSON holds it."""
    return row.model_dump(mode="json", include={field})[field]


def _remember_shipped(rows: CatalogueRows, merged: Mapping[str, Merged], *, overwrite: bool) -> None:
    """Keep at each own value what is shipped there now; an overwritten own value is none any more."""
    shipped = {kind: shipped_by_code(shape, rows) for kind, shape in SHAPES.items()}
    for own in OwnValue.objects.all():
        row = shipped.get(own.kind, {}).get(own.entry)
        if row is None:
            continue
        if overwrite:
            own.delete()
        elif (value := plain(row, own.field)) != own.shipped:
            own.shipped = value
            own.save(update_fields=["shipped"])


def _report(merged: Mapping[str, Merged]) -> LoadReport:
    return LoadReport(
        kinds=tuple(
            KindReport(kind, len(one.added), len(one.changed), len(one.unchanged))
            for kind, one in merged.items()
        ),
        kept=tuple(kept for one in merged.values() for kept in one.kept),
        own_entries=tuple((kind, code) for kind, one in merged.items() for code in one.own_entries),
    )
