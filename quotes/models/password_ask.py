"""That somebody asked for a way back in."""

from __future__ import annotations

from django.db import models


class PasswordAsk(models.Model):
    """One asking, kept for an hour so that nobody can have mail sent without end."""

    address = models.GenericIPAddressField(null=True, blank=True, db_index=True)
    mail_hash = models.CharField(max_length=64, db_index=True, help_text="SHA-256 of what was typed")
    asked_at = models.DateTimeField()

    class Meta:
        ordering = ["-asked_at", "-id"]

    def __str__(self) -> str:
        return f"asked {self.asked_at:%Y-%m-%d %H:%M}"
