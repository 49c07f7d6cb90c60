"""After the hand-over: service that customers report, and reminders sent to them."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q

from quotes.models.bench.fields import code, once_key, person, said
from quotes.models.bench.job import Job
from quotes.models.engine import Engine, ServiceUnit
from quotes.models.frozen import Frozen, FrozenQuerySet


class ServiceReportQuerySet(FrozenQuerySet["ServiceReport"]):
    def standing(self) -> ServiceReportQuerySet:
        """Without those that a later one corrected."""
        return self.filter(corrected_by=None)


class ServiceReport(Frozen):
    """What an engine has run since its last release, as reported on a day; a running total."""

    key = once_key()
    engine = models.ForeignKey(Engine, models.PROTECT, related_name="reports")
    job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="reports")
    """The job since whose release it counts."""
    amount = models.DecimalField(max_digits=12, decimal_places=2)
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    duty = code(blank=True, default="")
    on = models.DateField()
    over_rev_pct = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    oil_used = said(120)
    filter_seen = said()
    note = said(1000)
    name = models.CharField(max_length=200)
    """Who reported it."""
    how = said(120)
    at = models.DateTimeField()
    corrects = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="corrected_by"
    )

    objects = ServiceReportQuerySet.as_manager()

    class Meta:
        ordering = ["on", "id"]
        constraints = [models.CheckConstraint(condition=Q(amount__gte=0), name="service_report_not_negative")]

    def __str__(self) -> str:
        return f"{self.amount} {self.unit} on {self.on}"


class Reminder(Frozen):
    """A reminder that was sent: for which engine, and its words."""

    engine = models.ForeignKey(Engine, models.PROTECT, related_name="reminders")
    due_on = models.DateField(null=True, blank=True)
    words = models.TextField(max_length=4000)
    sent_on = models.DateField()
    at = models.DateTimeField()
    by = person()

    objects: ClassVar[models.Manager[Reminder]] = models.Manager()

    class Meta:
        ordering = ["-sent_on", "-id"]

    def __str__(self) -> str:
        return f"{self.engine}, {self.sent_on}"
