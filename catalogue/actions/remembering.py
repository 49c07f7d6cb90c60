"""Keeps who changed what on an entry, and which of its fields are the workshop's own from then on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from django.contrib.auth.models import User

from catalogue.actions.changed import CardChange, card_changed
from catalogue.actions.load import plain
from catalogue.calc.rows.kinds import Row
from catalogue.models import Change, OwnValue
from catalogue.queries.shapes import SHAPES

CODE = "code"
"""The field under which it is kept that an entry came or went."""


def remember(
    kind: str, before: Row, after: Row, fields: Sequence[str], version: int, source: str,
    by: User | None, now: datetime,
) -> None:  # fmt: skip
    """Keep the change of one entry, and that these fields are the workshop's own from now on."""
    shape = SHAPES[kind]
    code = shape.code_of(after)
    changes = {field: (plain(before, field), plain(after, field)) for field in fields}
    Change.objects.bulk_create(
        Change(kind=kind, entry=code, version=version, field=field, was=was, became=became, by=by, at=now)
        for field, (was, became) in changes.items()
    )
    told = changes | ({"where_from": (None, source)} if source else {})
    card_changed.send(sender=shape.model, card=CardChange(shape.model, code, name_of(after), told))
    for field, (was, _) in changes.items():
        own, new = OwnValue.objects.get_or_create(
            kind=kind,
            entry=code,
            field=field,
            defaults={"shipped": was, "by": by, "at": now, "source": source},
        )
        if not new:
            own.by, own.at, own.source = by, now, source
            own.save(update_fields=["by", "at", "source"])


def remember_added(kind: str, row: Row, version: int, by: User | None, now: datetime) -> None:
    """Keep that an entry came."""
    shape = SHAPES[kind]
    code = shape.code_of(row)
    Change.objects.create(
        kind=kind, entry=code, version=version, field=CODE, was=None, became=code, by=by, at=now
    )
    held = {field: (None, value) for field, value in row.model_dump(mode="json").items()}
    card_changed.send(sender=shape.model, card=CardChange(shape.model, code, name_of(row), held, added=True))


def remember_removed(kind: str, row: Row, version: int, by: User | None, now: datetime) -> None:
    """Keep that an entry went, with all that it said. Its own values go with it."""
    shape = SHAPES[kind]
    code = shape.code_of(row)
    Change.objects.create(
        kind=kind, entry=code, version=version, field=CODE, was=code, became=None, by=by, at=now
    )
    OwnValue.objects.filter(kind=kind, entry=code).delete()
    held = {field: (value, None) for field, value in row.model_dump(mode="json").items()}
    card_changed.send(
        sender=shape.model, card=CardChange(shape.model, code, name_of(row), held, removed=True)
    )


def name_of(row: Row) -> str:
    return str(getattr(row, "name", ""))
