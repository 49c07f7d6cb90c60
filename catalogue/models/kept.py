"""Bytes with the fingerprint they were kept under, in their row or outside of the database."""

from __future__ import annotations

import hashlib
from datetime import datetime
from typing import Self

from django.db import models

from catalogue.models.file_store import SMALL_BYTES, FileTrouble, keep_bytes, kept_bytes


class Kept(models.Model):
    """Its bytes are in the row where they are few, else where `place` says (`file_store`)."""

    name = models.CharField(max_length=200)
    sha256 = models.CharField(max_length=64)
    held = models.BinaryField(default=b"")
    place = models.CharField(max_length=100, blank=True, default="", db_index=True)

    class Meta:
        abstract = True

    def __str__(self) -> str:
        return self.name

    @property
    def since(self) -> datetime:
        """When it was kept."""
        raise NotImplementedError

    @property
    def content(self) -> bytes:
        """The bytes, wherever they are; FileTrouble, by its name, where they can't be had."""
        try:
            return kept_bytes(self.place, self.sha256) if self.place else bytes(self.held)
        except FileTrouble as trouble:
            trouble.named(self.name, self.since)
            raise

    @property
    def has_bytes(self) -> bool:
        """Whether they were not let go."""
        return bool(self.place or self.held)

    def put(self, content: bytes) -> None:
        """Hold them, before the row is saved.

        Where the transaction is not kept, what lies outside stays there without a row: see `sweep_files`.
        """
        self.sha256 = hashlib.sha256(content).hexdigest()
        if len(content) < SMALL_BYTES:
            self.held = content
        else:
            self.place = keep_bytes(content, self.sha256)

    def let_go(self) -> str:
        """Hold nothing any more, before the row is saved: where the bytes lay, for when that is kept."""
        place, self.place, self.held = self.place, "", b""
        return place

    @classmethod
    def to_be_had(cls) -> models.QuerySet[Self]:
        """Rows whose bytes can be asked for: all, unless a kind lets some go."""
        return models.QuerySet(cls)

    @property
    def is_sound(self) -> bool:
        """Whether the bytes still are those that were stored."""
        return hashlib.sha256(self.content).hexdigest() == self.sha256
