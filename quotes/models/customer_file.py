"""A file of customers and engines, kept between its check and its import."""

from __future__ import annotations

from datetime import datetime

from django.conf import settings
from django.db import models


class CustomerFileQuerySet(models.QuerySet["CustomerFile"]):
    def left_lying(self, before: datetime) -> CustomerFileQuerySet:
        """Checked before that moment and never taken in."""
        return self.filter(applied_at=None, checked_at__lt=before)


class CustomerFile(models.Model):
    """The bytes as they were handed in, so that what is taken in is what was looked at."""

    name = models.CharField(max_length=200)
    sha256 = models.CharField(max_length=64)
    content = models.BinaryField()
    checked_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    checked_at = models.DateTimeField()
    applied_at = models.DateTimeField(null=True, blank=True)
    added_customers = models.PositiveIntegerField(default=0)
    added_engines = models.PositiveIntegerField(default=0)
    added_segments = models.PositiveIntegerField(default=0)

    objects = CustomerFileQuerySet.as_manager()

    class Meta:
        ordering = ["-checked_at", "-id"]

    def __str__(self) -> str:
        return self.name
