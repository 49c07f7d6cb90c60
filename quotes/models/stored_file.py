"""A finished document, kept as the bytes that were made once."""

from __future__ import annotations

import hashlib
from base64 import b64decode
from typing import ClassVar, Self

from django.db import models

from quotes.models.file_store import FileTrouble, kept_bytes

ERASED = "erased"
"""The name of a file out of which everything was taken."""
NOTHING_IS = "image/png"
NOTHING = b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNkYAAAAAYAAjCB0C8AAAAASUVORK5CYII="
)
"""What stands in its place: one empty dot, so that a page with the picture still stands."""


class StoredFile(models.Model):
    """A PDF, workbook or photo with the fingerprint it was stored under.

    Its bytes are in the row where they are few, else where `place` says (`quotes.models.file_store`).
    """

    name = models.CharField(max_length=200)
    content_type = models.CharField(max_length=100)
    sha256 = models.CharField(max_length=64)
    held = models.BinaryField(default=b"")
    place = models.CharField(max_length=100, blank=True, default="", db_index=True)
    made_at = models.DateTimeField()

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta:
        # Sample data looks for what it put aside, by name.
        indexes = [models.Index(fields=["name"], name="stored_file_name")]

    def __str__(self) -> str:
        return self.name

    @property
    def content(self) -> bytes:
        """The bytes, wherever they are; FileTrouble, by its name, where they can't be had."""
        try:
            return kept_bytes(self.place, self.sha256) if self.place else bytes(self.held)
        except FileTrouble as trouble:
            trouble.named(self.name, self.made_at)
            raise

    @content.setter
    def content(self, content: bytes) -> None:
        self.held = content

    @property
    def is_sound(self) -> bool:
        """Whether the bytes still are those that were stored."""
        return hashlib.sha256(self.content).hexdigest() == self.sha256

    @property
    def is_erased(self) -> bool:
        """Whether nothing is left of what it was."""
        return self.name == ERASED
