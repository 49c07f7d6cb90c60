"""The customer's way to a quote: an address that can't be guessed."""

from __future__ import annotations

import hashlib
from datetime import datetime

from django.db import models


def token_hash(token: str) -> str:
    """What is stored of a token: its SHA-256, so that a copy of the database opens no page."""
    return hashlib.sha256(token.encode()).hexdigest()


class LinkQuerySet(models.QuerySet["Link"]):
    def by_token(self, token: str) -> LinkQuerySet:
        found = self.filter(token_hash=token_hash(token))
        return found.select_related("quote__latest", "quote__acceptance__called_off", "revision")

    def working(self, now: datetime) -> LinkQuerySet:
        """Neither withdrawn nor run out."""
        return self.filter(expires_at__gt=now, withdrawn_at=None)


class Link(models.Model):
    """It always shows the latest issued revision; `revision` is the one it was sent for."""

    quote = models.ForeignKey("Quote", models.PROTECT, related_name="links")
    revision = models.ForeignKey("Revision", models.PROTECT, related_name="links")
    token_hash = models.CharField(max_length=64, unique=True)
    created_at = models.DateTimeField()
    created_by = models.CharField(max_length=150, blank=True, default="")
    expires_at = models.DateTimeField()
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    objects = LinkQuerySet.as_manager()

    class Meta:
        ordering = ["-created_at", "-id"]

    def __str__(self) -> str:
        return f"link of {self.created_at:%Y-%m-%d}"
