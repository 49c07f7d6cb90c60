"""Sample data in an empty workshop: written by the actions people use, taken out again to the last row.

What was there before is kept as a file. While the sample is there everything in the workshop is sample:
taking it out empties every table and puts back what was there.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import datetime

from django.apps import apps
from django.contrib.auth.models import User
from django.core import serializers
from django.db import models, transaction

from catalogue.actions.load import load_rows
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.said import say
from quotes.actions.audit.bulk import tell_emptied
from quotes.actions.demo.writing import write_sample
from quotes.actions.refused import Refused
from quotes.calc.demo.workshop import Demo, Style
from quotes.models import StoredFile
from quotes.models.thawed import thawed
from quotes.queries.sample import BEFORE, is_empty, is_loaded

STAYS = frozenset(
    {"auditentry", "auditwords", "audithead", "signin", "telephone", "invitation", "allowance", "sentform"}
)
"""The record of changes, which only grows, and who may come in."""


class NotEmpty(Refused):
    """There is something of one's own already, or no sample to take out."""


@transaction.atomic
def load_sample(*, demo: Demo, style: Style, catalogue: CatalogueRows, by: User, now: datetime) -> None:
    """Fill an empty workshop. Settings and price list that were made wait until the sample is taken out."""
    if not is_empty():
        raise NotEmpty(say("There is something in this workshop already: sample data is not mixed with it."))
    before = serializers.serialize("json", _rows_of_all()).encode()
    with thawed(_tables()):
        _empty()
        StoredFile.objects.create(
            name=BEFORE,
            content_type="application/json",
            held=before,
            sha256=hashlib.sha256(before).hexdigest(),
            made_at=now,
        )
    load_rows(rows=catalogue, now=now)
    write_sample(demo=demo, style=style, by=by, now=now)


@transaction.atomic
def remove_sample() -> None:
    """Empty every table and put back what was there before."""
    if not is_loaded():
        raise NotEmpty(say("There is no sample data in this workshop."))
    before = bytes(StoredFile.objects.get(name=BEFORE).content)
    with thawed(_tables()):
        _empty()
        for row in serializers.deserialize("json", before.decode()):
            row.save()


def sample_models() -> list[type[models.Model]]:
    """Every model that the sample may write to, joining tables among them."""
    of_both = (
        apps.get_app_config(app).get_models(include_auto_created=True) for app in ("catalogue", "quotes")
    )
    return [model for of_one in of_both for model in of_one if model._meta.model_name not in STAYS]


def _tables() -> set[str]:
    return {model._meta.db_table for model in sample_models()}


def _rows_of_all() -> Iterator[models.Model]:
    for model in sample_models():
        yield from model._base_manager.order_by("pk").iterator(500)


def _empty() -> None:
    """By plain statements, told of in one entry: it was never real. Keys are checked at the end."""
    for model in sample_models():
        rows: models.QuerySet[models.Model] = models.QuerySet(model)
        rows._raw_delete(rows.db)
    tell_emptied("sample data")
