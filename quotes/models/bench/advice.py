"""Advice that the customer did not take: kept and printed, signed where a rider's safety hangs on it."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from quotes.models.bench.fields import code, once_key, said
from quotes.models.bench.job import Job
from quotes.models.frozen import Frozen, FrozenQuerySet


class DeclinedAdviceQuerySet(FrozenQuerySet["DeclinedAdvice"]):
    """Advice that was not taken."""


class DeclinedAdvice(Frozen):
    """What was advised, the risk if it is left, and who said no to it, when and how."""

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="declined")
    component = code(blank=True, default="")
    words = models.CharField(max_length=300)
    risk = said(500)
    rider_safety = models.BooleanField(default=False)
    said_by = models.CharField(max_length=200)
    how = models.CharField(max_length=200)
    at = models.DateTimeField()
    written_by = said(150)

    objects = DeclinedAdviceQuerySet.as_manager()

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            models.CheckConstraint(condition=~Q(said_by=""), name="declined_advice_by_somebody"),
        ]

    def __str__(self) -> str:
        return self.words
