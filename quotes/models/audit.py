"""The record of changes: who changed what and when, from what to what, each entry chained to the one before.

Entries are written by `quotes.actions.audit` at the end of the transaction that made the change, and by
nothing else. Triggers let them be neither changed nor deleted and keep the head in step (`audit_triggers`).
"""

from __future__ import annotations

from datetime import datetime
from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.frozen import Frozen, FrozenQuerySet


class ByKind(models.TextChoices):
    PERSON = "person", _("a person signed in")
    CUSTOMER = "customer", _("a customer, by link")
    COMMAND = "command", _("a command")


class AuditAction(models.TextChoices):
    ADDED = "added", _("added")
    CHANGED = "changed", _("changed")
    DELETED = "deleted", _("deleted")
    LOADED = "loaded", _("loaded")


class AuditQuerySet(FrozenQuerySet["AuditEntry"]):
    def of_record(self, record_type: str, record_id: str) -> AuditQuerySet:
        """About one record, and about what belongs to it."""
        own = Q(record_type=record_type, record_id=record_id)
        return self.filter(own | Q(under_type=record_type, under_id=record_id))

    def between(self, first: datetime | None, before: datetime | None) -> AuditQuerySet:
        """From a moment on and before another; either may be open."""
        found = self.filter(at__gte=first) if first else self
        return found.filter(at__lt=before) if before else found


class AuditEntry(Frozen):
    """`record_type` is a model's label in small letters; `under` the record that this one belongs to, if any.

    No key leads to another table: an entry outlives what it tells of, and while the head is locked nothing
    else may be waited for. What was said stands in `AuditWords`, its digest here.
    """

    number = models.PositiveBigIntegerField(primary_key=True)
    at = models.DateTimeField(db_index=True)
    by_kind = models.CharField(max_length=10, choices=ByKind.choices)
    by_id = models.CharField(max_length=64, blank=True, default="")
    action = models.CharField(max_length=10, choices=AuditAction.choices)
    record_type = models.CharField(max_length=60)
    record_id = models.CharField(max_length=64)
    under_type = models.CharField(max_length=60, blank=True, default="")
    under_id = models.CharField(max_length=64, blank=True, default="")
    digest = models.CharField(max_length=64)
    previous = models.CharField(max_length=64)
    hash = models.CharField(max_length=64, unique=True)

    objects = AuditQuerySet.as_manager()

    class Meta:
        ordering = ["-number"]
        verbose_name_plural = "audit entries"
        indexes = [
            models.Index(fields=["record_type", "record_id"], name="audit_record"),
            models.Index(fields=["under_type", "under_id"], name="audit_under"),
            models.Index(fields=["by_kind", "by_id"], name="audit_by"),
        ]

    def __str__(self) -> str:
        return f"change {self.number}"


class AuditWords(models.Model):
    """What an entry says, apart from it, so that a person's data can be erased while the chain stands.

    `told` is canonical JSON: before, after and salt by field; or only the digest of what was erased. A column
    for JSON would not do: PostgreSQL writes numbers its own way, and the digest is of the letters.
    """

    RECORD = ":record"
    """What the record was called."""
    BY = ":by"
    """What the one who did it was called."""

    entry = models.OneToOneField(AuditEntry, models.PROTECT, primary_key=True, related_name="words")
    told = models.TextField()
    erased_at = models.DateTimeField(null=True, blank=True)

    objects: ClassVar[models.Manager[AuditWords]] = models.Manager()

    class Meta:
        verbose_name_plural = "audit words"

    def __str__(self) -> str:
        return f"words of change {self.pk}"


class AuditHead(models.Model):
    """How many entries there are and the hash of the last: a tail that was cut off is missed here."""

    ONLY_ID = 1

    count = models.PositiveBigIntegerField(default=0)
    hash = models.CharField(max_length=64)

    objects: ClassVar[models.Manager[AuditHead]] = models.Manager()

    class Meta:
        constraints = [models.CheckConstraint(condition=Q(id=1), name="one_audit_head")]

    def __str__(self) -> str:
        return f"{self.count} entries"
