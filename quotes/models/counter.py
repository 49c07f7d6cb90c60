"""The last number given out of one series in one year."""

from __future__ import annotations

from typing import ClassVar, Self

from django.db import models


class Counter(models.Model):
    """Only the numbering action reads and moves it, under a lock."""

    kind = models.CharField(max_length=16)
    year = models.PositiveSmallIntegerField()
    value = models.PositiveIntegerField(default=0)

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["kind", "year"], name="counter_once_a_year")]

    def __str__(self) -> str:
        return f"{self.kind} {self.year}: {self.value}"
