"""Machine work out and back, and the clock on the bench."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.bench.fields import code, file_or_none, measured, once_key, person, said
from quotes.models.bench.job import Job
from quotes.models.books.fields import sum_of_money
from quotes.models.frozen import Frozen, FrozenQuerySet


class TakesOff(models.TextChoices):
    """What adds up over an engine's life."""

    SKIM = "skim", _("skimmed")
    REGRIND = "regrind", _("reground")
    REPLATE = "replate", _("replated")
    SEAT_CUT = "seat_cut", _("seats cut")


class WorksOrderQuerySet(FrozenQuerySet["WorksOrder"]):
    def out(self) -> WorksOrderQuerySet:
        """Sent out and not back."""
        return self.filter(back_on=None)


class WorksOrder(Frozen):
    """Work sent out: what, to whom, with what, to which sizes, and how it came back.

    `targets` are the sizes asked for and `checked` what was measured on its return, by the same names.
    """

    LATER: ClassVar[frozenset[str]] = frozenset(
        {
            "pdf",
            "back_on",
            "checked",
            "sound",
            "taken_off",
            "taken_off_mm",
            "back_note",
            "back_by",
            "cost",
        }
    )

    key = once_key()
    number = models.CharField(max_length=20, unique=True)
    job = models.ForeignKey(Job, models.PROTECT, related_name="works_orders")
    machine_work = code()
    name = models.CharField(max_length=200)
    component = code(blank=True, default="")
    vendor = models.CharField(max_length=200)
    tag = models.CharField(max_length=40)
    quantity = models.DecimalField(max_digits=10, decimal_places=3)
    targets = models.JSONField(default=list, blank=True)
    goes_with = models.JSONField(default=list, blank=True)
    words = said(1000)
    expected_cost = sum_of_money()
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    sent_on = models.DateField(db_index=True)
    expected_on = models.DateField()
    slow_on = models.DateField()
    at = models.DateTimeField()
    by = person()
    pdf = file_or_none()
    back_on = models.DateField(null=True, blank=True)
    checked = models.JSONField(default=list, blank=True)
    sound = models.BooleanField(null=True, blank=True)
    taken_off = models.CharField(max_length=10, choices=TakesOff.choices, blank=True, default="")
    taken_off_mm = measured()
    cost = models.DecimalField(max_digits=16, decimal_places=3, null=True, blank=True)
    back_note = said(500)
    back_by = said(150)

    objects = WorksOrderQuerySet.as_manager()

    class Meta:
        ordering = ["-sent_on", "-id"]
        constraints = [
            models.CheckConstraint(condition=Q(quantity__gt=0), name="works_order_of_something"),
            models.CheckConstraint(
                condition=Q(back_on=None, sound=None) | Q(back_on__isnull=False, sound__isnull=False),
                name="works_order_checked_when_back",
            ),
        ]

    def __str__(self) -> str:
        return self.number


class ClockRunQuerySet(models.QuerySet["ClockRun"]):
    def running(self) -> ClockRunQuerySet:
        return self.filter(stopped_at=None)


class ClockRun(models.Model):
    """A person's clock on one operation of a job. It becomes hours when it is stopped, never by itself."""

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="clock_runs")
    operation = code(blank=True, default="")
    person = person()
    started_at = models.DateTimeField()
    stopped_at = models.DateTimeField(null=True, blank=True)
    worked = models.OneToOneField(
        "WorkedHours", models.SET_NULL, null=True, blank=True, related_name="clock_run"
    )
    settled = said()
    """What was said when it had been left running."""

    objects = ClockRunQuerySet.as_manager()

    class Meta:
        ordering = ["-started_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["person"], condition=Q(stopped_at=None), name="clock_runs_once_a_person"
            ),
            models.CheckConstraint(
                condition=Q(stopped_at=None) | Q(stopped_at__gte=models.F("started_at")),
                name="clock_stops_after_it_starts",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.operation} from {self.started_at:%H:%M}"
