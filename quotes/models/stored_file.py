"""A finished document, kept as the bytes that were made once."""

from __future__ import annotations

from base64 import b64decode
from datetime import datetime
from typing import ClassVar, Self

from django.db import models

from catalogue.models.kept import Kept

ERASED = "erased"
"""The name of a file out of which everything was taken."""
NOTHING_IS = "image/png"
NOTHING = b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNkYAAAAAYAAjCB0C8AAAAASUVORK5CYII="
)
"""What stands in its place: one empty dot, so that a page with the picture still stands."""


class StoredFile(Kept):
    """A PDF, workbook or photo."""

    content_type = models.CharField(max_length=100)
    made_at = models.DateTimeField()

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta:
        # Sample data looks for what it put aside, by name.
        indexes = [models.Index(fields=["name"], name="stored_file_name")]

    @property
    def since(self) -> datetime:
        return self.made_at

    @property
    def is_erased(self) -> bool:
        """Whether nothing is left of what it was."""
        return self.name == ERASED
