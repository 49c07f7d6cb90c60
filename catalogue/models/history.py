"""What the workshop changed by hand: its own values, and every change that was ever made."""

from __future__ import annotations

from django.conf import settings
from django.db import models


class OwnValue(models.Model):
    """A field whose value the workshop has set itself: loading the catalogue again leaves it alone."""

    kind = models.CharField(max_length=20)
    entry = models.CharField(max_length=64)
    field = models.CharField(max_length=64)
    shipped = models.JSONField(null=True)
    """What the catalogue says there: as it was before the first change, or as it was loaded last."""
    source = models.TextField(blank=True, default="", max_length=2000)
    """Where the workshop has its own value from, in its words."""
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["kind", "entry", "field"]
        constraints = [
            models.UniqueConstraint(fields=["kind", "entry", "field"], name="own_value_once"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.entry} {self.field}"


class Change(models.Model):
    """One field of one entry, changed by hand, as it was and as it became. Never altered."""

    kind = models.CharField(max_length=20)
    entry = models.CharField(max_length=64)
    version = models.PositiveIntegerField()
    """The entry's version that this change made."""
    field = models.CharField(max_length=64)
    was = models.JSONField(null=True)
    became = models.JSONField(null=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["kind", "entry", "version", "field"]
        constraints = [
            models.UniqueConstraint(fields=["kind", "entry", "version", "field"], name="change_once"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.entry} {self.field}, version {self.version}"
