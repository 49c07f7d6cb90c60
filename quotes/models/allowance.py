"""How often somebody did of late what may be done only so often."""

from __future__ import annotations

from django.db import models


class Allowance(models.Model):
    """One row for each who and what, locked while it is counted, so that two at once are two.

    `who_hash` is the SHA-256 of an address or a mail address: nobody is listed here.
    """

    what = models.CharField(max_length=30)
    who_hash = models.CharField(max_length=64)
    times = models.JSONField(
        default=list, help_text="when it was done of late, in ISO 8601, the oldest first"
    )
    last_at = models.DateTimeField(db_index=True)

    class Meta:
        ordering = ["what", "-last_at"]
        constraints = [models.UniqueConstraint(fields=["what", "who_hash"], name="allowance_once_a_who")]

    def __str__(self) -> str:
        return f"{self.what}: {len(self.times)}"
