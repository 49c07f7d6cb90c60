"""A finished document, kept as the bytes that were made once."""

from __future__ import annotations

import hashlib
from typing import ClassVar, Self

from django.db import models


class StoredFile(models.Model):
    """A PDF or workbook with the fingerprint it was stored under."""

    name = models.CharField(max_length=200)
    content_type = models.CharField(max_length=100)
    sha256 = models.CharField(max_length=64)
    content = models.BinaryField()
    made_at = models.DateTimeField()

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    def __str__(self) -> str:
        return self.name

    @property
    def is_sound(self) -> bool:
        """Whether the bytes still are those that were stored."""
        return hashlib.sha256(bytes(self.content)).hexdigest() == self.sha256
