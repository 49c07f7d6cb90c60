"""A workbook of the catalogue, kept between its check and the press that takes it in."""

from __future__ import annotations

from datetime import datetime

from django.conf import settings
from django.db import models


class CatalogueFileQuerySet(models.QuerySet["CatalogueFile"]):
    def left_lying(self, before: datetime) -> CatalogueFileQuerySet:
        """Checked before that moment and never taken in."""
        return self.filter(applied_at=None, checked_at__lt=before)


class CatalogueFile(models.Model):
    """The bytes as they were handed in, so that what is taken in is what was looked at."""

    name = models.CharField(max_length=200)
    sha256 = models.CharField(max_length=64)
    content = models.BinaryField()
    checked_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    checked_at = models.DateTimeField()
    applied_at = models.DateTimeField(null=True, blank=True)
    added = models.PositiveIntegerField(default=0)
    changed = models.PositiveIntegerField(default=0)
    removed = models.PositiveIntegerField(default=0)

    objects = CatalogueFileQuerySet.as_manager()

    class Meta:
        ordering = ["-checked_at", "-id"]

    def __str__(self) -> str:
        return self.name
