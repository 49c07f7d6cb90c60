"""What is looked at before an engine leaves, and what a type's manual says of running it in."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q

from quotes.models.bench.fields import amount_of_use, code, once_key, person, said
from quotes.models.bench.job import Job
from quotes.models.engine import ServiceUnit
from quotes.models.frozen import Frozen, FrozenQuerySet


class FinalCheckQuerySet(FrozenQuerySet["FinalCheck"]):
    """Refuses change and deletion in bulk."""


class FinalCheck(Frozen):
    """The last look before an engine leaves; a later one stands for an earlier one.

    `answers` are rows of what was asked, the answer and a note. `asked` are the components that should be new
    or reconditioned, each with which of the two, and `done` those that really are. `rings` and `bore` say how
    it is run in.
    """

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="final_checks")
    answers = models.JSONField(default=list)
    asked = models.JSONField(default=dict, blank=True)
    done = models.JSONField(default=list, blank=True)
    rings = said(20)
    bore = said(20)
    note = said(500)
    at = models.DateTimeField()
    by = person()

    objects = FinalCheckQuerySet.as_manager()

    class Meta:
        ordering = ["at", "id"]

    def __str__(self) -> str:
        return f"{self.job}: final check"


class RunningInRule(models.Model):
    """Running-in of one engine type, by the maker's manual or as this workshop does it.

    It stands before common practice. Amounts in `unit`; `manual` empty: the workshop's own practice.
    """

    type_code = code(unique=True)
    manual = said(200)
    page = said(40)
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    rev_limit_pct = models.PositiveSmallIntegerField()
    """Per cent of the rev limit that it is kept under."""
    revs_until = models.DecimalField(max_digits=12, decimal_places=2)
    oil_at = models.DecimalField(max_digits=12, decimal_places=2)
    recheck_at = amount_of_use()
    words = said(1000)

    objects: ClassVar[models.Manager[RunningInRule]] = models.Manager()

    class Meta:
        ordering = ["type_code"]
        constraints = [
            models.CheckConstraint(
                condition=Q(rev_limit_pct__gte=20, rev_limit_pct__lte=100), name="running_in_revs_are_a_share"
            ),
            models.CheckConstraint(
                condition=Q(revs_until__gte=0, oil_at__gte=0), name="running_in_not_negative"
            ),
        ]

    def __str__(self) -> str:
        return f"Running-in of {self.type_code}"
