"""The lists beside the workshop's row: hourly rates, markup, racing classes and closed days."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _


class KindOfWork(models.TextChoices):
    OFFICE = "office", _("office")
    STRIP = "strip", _("strip")
    CLEAN = "clean", _("clean")
    INSPECT = "inspect", _("measure and inspect")
    ASSEMBLE = "assemble", _("assemble")
    TEST = "test", _("test and dyno")


class LabourRate(models.Model):
    """What an hour of one kind of work is sold at, before tax."""

    kind = models.CharField(max_length=8, choices=KindOfWork.choices, unique=True)
    per_hour = models.DecimalField(
        max_digits=8,
        decimal_places=2,
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(10_000))],
    )

    class Meta:
        ordering = ["id"]
        constraints = [models.CheckConstraint(condition=Q(per_hour__gte=0), name="labour_rate_not_negative")]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}: {self.per_hour} an hour"


class MarkupBand(models.Model):
    """From this cost upward the markup, until the next band begins."""

    cost_from = models.DecimalField(
        max_digits=10, decimal_places=2, unique=True, validators=[MinValueValidator(Decimal(0))]
    )
    markup_pct = models.DecimalField(
        max_digits=6,
        decimal_places=2,
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(1000))],
    )

    class Meta:
        ordering = ["cost_from"]
        constraints = [
            models.CheckConstraint(
                condition=Q(cost_from__gte=0, markup_pct__gte=0), name="markup_not_negative"
            )
        ]

    def __str__(self) -> str:
        return f"from {self.cost_from}: {self.markup_pct} %"


class ClassRule(models.Model):
    """A class of racing and which changes to the engine it allows."""

    code = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=80)
    allows_compression = models.BooleanField(default=False)
    allows_cams = models.BooleanField(default=False)
    allows_porting = models.BooleanField(default=False)
    allows_weight = models.BooleanField(default=False)

    CHANGES = ("compression", "cams", "porting", "weight")

    class Meta:
        ordering = ["name", "id"]

    def __str__(self) -> str:
        return self.name

    @property
    def allows(self) -> frozenset[str]:
        return frozenset(change for change in self.CHANGES if getattr(self, f"allows_{change}"))


class ClosedDay(models.Model):
    """Days on which the workshop is closed besides weekends and public holidays, both ends included."""

    first = models.DateField()
    last = models.DateField()
    note = models.CharField(max_length=80, blank=True, default="")

    class Meta:
        ordering = ["first", "id"]
        constraints = [
            models.CheckConstraint(condition=Q(last__gte=F("first")), name="closed_days_end_after_they_begin")
        ]

    def __str__(self) -> str:
        return self.note or f"closed {self.first} to {self.last}"

    def holds(self, day: date) -> bool:
        return self.first <= day <= self.last
