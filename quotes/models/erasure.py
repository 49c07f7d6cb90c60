"""That a customer was erased: who did it, when, and what stood and stands now, by fingerprint alone."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from quotes.models.frozen import Frozen, FrozenQuerySet


class ErasureQuerySet(FrozenQuerySet["Erasure"]):
    """Refuses change and deletion in bulk."""


class Erasure(Frozen):
    """One erasing of one customer. `went` and `stayed` are its lists as they were shown, without a name."""

    customer = models.ForeignKey("Customer", models.PROTECT, related_name="erasures")
    as_of = models.DateField()
    at = models.DateTimeField()
    by = models.CharField(max_length=150)
    went = models.JSONField()
    stayed = models.JSONField()

    objects = ErasureQuerySet.as_manager()

    class Meta:
        ordering = ["at", "id"]

    def __str__(self) -> str:
        return f"erasure of {self.at:%Y-%m-%d}"


class ErasedRowQuerySet(FrozenQuerySet["ErasedRow"]):
    """Refuses change and deletion in bulk."""


class ErasedRow(Frozen):
    """One row out of which a person was taken, and its fingerprints where it has one.

    `fields` are the columns that were changed. A file that is gone has no new fingerprint: the row is what is
    left of it.
    """

    erasure = models.ForeignKey(Erasure, models.PROTECT, related_name="rows")
    model = models.CharField(max_length=60)
    row = models.BigIntegerField()
    fields = models.JSONField()
    old_sha256 = models.CharField(max_length=64, blank=True, default="")
    new_sha256 = models.CharField(max_length=64, blank=True, default="")

    objects: ClassVar[models.Manager[ErasedRow]] = ErasedRowQuerySet.as_manager()

    class Meta:
        ordering = ["erasure", "id"]
        constraints = [models.UniqueConstraint(fields=["erasure", "model", "row"], name="erased_row_once")]

    def __str__(self) -> str:
        return f"{self.model} {self.row}"
