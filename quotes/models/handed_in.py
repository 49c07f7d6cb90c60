"""A file that somebody handed in, kept between its check and the press that takes it in."""

from __future__ import annotations

from datetime import datetime
from typing import ClassVar, Self

from django.conf import settings
from django.db import models

from catalogue.models.kept import Kept


class HandedIn(Kept):
    """The bytes as they were handed in, so that what is taken in is what was looked at."""

    checked_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    checked_at = models.DateTimeField()
    applied_at = models.DateTimeField(null=True, blank=True)

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta(Kept.Meta):
        abstract = True
        ordering = ["-checked_at", "-id"]

    @property
    def since(self) -> datetime:
        return self.checked_at

    @classmethod
    def left_lying(cls, before: datetime) -> models.QuerySet[Self]:
        """Checked before that moment and never taken in."""
        return cls.objects.filter(applied_at=None, checked_at__lt=before)
