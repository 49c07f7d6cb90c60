"""Erases a customer within what has to be kept, and keeps a record that says so without naming him."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import date, datetime
from typing import Any

from django.db import connection, models, transaction

from catalogue.actions.dropping import drop_file_later
from catalogue.calc.said import say
from quotes.actions.forgotten import forget
from quotes.actions.refused import Refused
from quotes.models import Acceptance, Customer, Erasure, Link, Revision, StoredFile
from quotes.models.erasure import ErasedRow
from quotes.models.stored_file import ERASED, NOTHING, NOTHING_IS
from quotes.models.thawed import thawed
from quotes.queries.erasure.plan import ErasurePlan, RowChange, erasure_plan, in_hand
from quotes.queries.record.held import rows_of


class StillInHand(Refused):
    """Something is still being done for the customer, or owed."""


@transaction.atomic
def erase_customer(*, customer: Customer, by: str, now: datetime, as_of: date) -> ErasurePlan:
    """Do what `erasure_plan` says. Where nothing is left to erase nothing is written."""
    Customer.objects.select_for_update().get(pk=customer.pk)
    if reasons := in_hand(customer):
        raise StillInHand(
            say("C-{number} can't be erased yet: {reasons}.", number=customer.pk, reasons="; ".join(reasons))
        )
    plan = erasure_plan(customer, as_of)
    if not plan.goes:
        return plan
    erasure = Erasure.objects.create(
        customer=customer, as_of=as_of, at=now, by=by, went=plan.goes, stayed=plan.stays
    )
    with thawed({table for change in plan.changes for table in _tables(change)}):
        for change in plan.changes:
            _apply(change, erasure)
    for model, rows, columns in plan.reached:
        forget(f"quotes.{model}", rows, columns, now)
    gone = _rows(Link).filter(pk__in=[*rows_of("link", customer).values_list("pk", flat=True)])
    gone._raw_delete(gone.db)
    return plan


def _tables(change: RowChange) -> Iterator[str]:
    yield change.model._meta.db_table
    yield StoredFile._meta.db_table
    if change.model is Revision:
        yield Acceptance._meta.db_table


def _apply(change: RowChange, erasure: Erasure) -> None:
    """By plain statements: what listens to saved rows would write down what was there before."""
    _rows(change.model).filter(pk=change.row).update(**change.columns)
    if change.model is Revision and change.new_sha256:
        _rows(Acceptance).filter(revision=change.row).update(sheet_sha256=change.new_sha256)
    tombstones = [
        ErasedRow(
            erasure=erasure,
            model=str(change.model._meta.model_name),
            row=change.row,
            fields=sorted(change.columns),
            old_sha256=change.old_sha256,
            new_sha256=change.new_sha256,
        ),
        *_files_gone(change, erasure),
        *_files_emptied(change, erasure),
    ]
    ErasedRow.objects.bulk_create(tombstones)


def _files_gone(change: RowChange, erasure: Erasure) -> Iterator[ErasedRow]:
    files = _rows(StoredFile).filter(pk__in=change.files)
    for pk, sha256, place in [*files.values_list("pk", "sha256", "place")]:
        yield _of_file(erasure, pk, sha256, "")
        drop_file_later(place)
    files._raw_delete(connection.alias)


def _files_emptied(change: RowChange, erasure: Erasure) -> Iterator[ErasedRow]:
    files = _rows(StoredFile).filter(pk__in=change.emptied_files)
    stands = hashlib.sha256(NOTHING).hexdigest()
    for pk, sha256, place in [*files.values_list("pk", "sha256", "place")]:
        yield _of_file(erasure, pk, sha256, stands)
        drop_file_later(place)
    files.update(name=ERASED, content_type=NOTHING_IS, held=NOTHING, place="", sha256=stands)


def _of_file(erasure: Erasure, pk: int, old: str, new: str) -> ErasedRow:
    name = str(StoredFile._meta.model_name)
    return ErasedRow(erasure=erasure, model=name, row=pk, fields=["content"], old_sha256=old, new_sha256=new)


def _rows(model: type[models.Model]) -> models.QuerySet[Any]:
    """A queryset of Django's own: that of a frozen model refuses, rightly, everywhere but here."""
    return models.QuerySet(model)
