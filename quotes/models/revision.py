"""An issued revision of a quote: the frozen sheet and the documents drawn from it."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from quotes.models.frozen import Frozen, FrozenQuerySet


class RevisionQuerySet(FrozenQuerySet["Revision"]):
    def standing(self, on: date) -> RevisionQuerySet:
        """Latest of their quotes and not lapsed on that day."""
        return self.filter(quote__latest_id=F("id"), valid_until__gte=on)


class Revision(Frozen):
    """`sheet` is `quotes.calc.sheet.issued_values.Sheet` as JSON and `sheet_sha256` its fingerprint.

    Sums from and to are the cheapest and the dearest option with tax, for lists.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"pdf", "workbook"})

    quote = models.ForeignKey("Quote", models.PROTECT, related_name="revisions")
    index = models.PositiveSmallIntegerField()
    request = models.JSONField()
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    issued_at = models.DateTimeField()
    issued_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    valid_until = models.DateField()
    class_tick = models.BooleanField(default=False)
    gross_from = models.DecimalField(max_digits=14, decimal_places=2)
    gross_to = models.DecimalField(max_digits=14, decimal_places=2)
    pdf = models.OneToOneField("StoredFile", models.PROTECT, null=True, blank=True, related_name="+")
    workbook = models.OneToOneField("StoredFile", models.PROTECT, null=True, blank=True, related_name="+")

    objects = RevisionQuerySet.as_manager()

    class Meta:
        ordering = ["quote", "index"]
        indexes = [
            models.Index(fields=["valid_until", "quote"], name="revision_by_last_day"),
            models.Index(fields=["gross_from", "quote"], name="revision_by_least"),
            models.Index(fields=["gross_to", "quote"], name="revision_by_most"),
        ]
        constraints = [
            models.UniqueConstraint(fields=["quote", "index"], name="revision_index_once"),
            models.CheckConstraint(condition=Q(index__gte=1), name="revision_counts_from_one"),
            models.CheckConstraint(condition=Q(gross_to__gte=F("gross_from")), name="revision_sums_in_order"),
        ]

    def __str__(self) -> str:
        return f"revision {self.index}"

    def is_lapsed(self, on: date) -> bool:
        """Whether it could no longer be accepted on that day; the last day still counts."""
        return self.valid_until < on
