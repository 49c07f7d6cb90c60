"""A customer's engine with its past: stretches of service, and parts renewed since."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from catalogue.calc.search_key import search_key

SEARCHED = 200


class Delivered(models.TextChoices):
    LOOSE = "loose", _("loose")
    IN_CHASSIS = "in_chassis", _("in the chassis")


class ServiceUnit(models.TextChoices):
    MILES = "mi", _("miles")
    KILOMETRES = "km", _("kilometres")
    HOURS = "h", _("hours")
    RUNS = "runs", _("runs")


class EngineQuerySet(models.QuerySet["Engine"]):
    def found_by(self, text: str) -> EngineQuerySet:
        """Engines whose number or owner holds every word of `text`, accents and case aside."""
        found = self
        for word in search_key(text).split():
            found = found.filter(Q(search_key__contains=word) | Q(customer__search_key__contains=word))
        return found

    def with_history(self) -> EngineQuerySet:
        return self.select_related("customer").prefetch_related("segments", "renewed_parts")


class Engine(models.Model):
    """One engine, by type and number. Where `history_known` is false its service so far is unknown."""

    customer = models.ForeignKey("Customer", models.PROTECT, related_name="engines")
    type_code = models.CharField(max_length=64)
    number = models.CharField(max_length=60, blank=True, default="")
    delivered = models.CharField(max_length=10, choices=Delivered.choices, default=Delivered.LOOSE)
    fitted = models.CharField(max_length=64, blank=True, default="")
    history_known = models.BooleanField(default=False)
    build_cycles = models.JSONField(default=dict, blank=True)
    note = models.TextField(max_length=2000, blank=True, default="")
    search_key = models.CharField(max_length=SEARCHED, editable=False, db_index=True)
    version = models.PositiveIntegerField(default=1)

    objects = EngineQuerySet.as_manager()

    class Meta:
        ordering = ["number", "id"]
        indexes = [models.Index(fields=["number"], name="engine_by_number")]
        constraints = [
            models.UniqueConstraint(
                fields=["customer", "type_code", "number"],
                condition=~Q(number=""),
                name="engine_number_once_a_customer",
                violation_error_message=_("This customer already has an engine of this type and number."),
            )
        ]

    def __str__(self) -> str:
        return self.number or say("{type}, no number", type=self.type_code)

    def make_search_key(self) -> str:
        """With and without dashes and blanks, cut off where it is full."""
        return search_key(self.number, self.number.replace("-", "").replace(" ", ""))[:SEARCHED]


class Segment(models.Model):
    """A stretch of past service with the duty and the tune it was run in."""

    engine = models.ForeignKey(Engine, models.CASCADE, related_name="segments")
    order = models.PositiveSmallIntegerField()
    amount = models.DecimalField(max_digits=12, decimal_places=2)
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    duty = models.CharField(max_length=64)
    tier = models.CharField(max_length=64, default="refresh")
    start = models.DateField(null=True, blank=True)
    end = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["order", "id"]
        constraints = [
            models.UniqueConstraint(fields=["engine", "order"], name="segment_order_once"),
            models.CheckConstraint(condition=Q(amount__gte=0), name="segment_amount_not_negative"),
            models.CheckConstraint(
                condition=Q(start=None) | Q(end=None) | Q(end__gte=F("start")),
                name="segment_ends_after_it_begins",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.amount} {self.unit} {self.duty}"


class RenewedPart(models.Model):
    """A component renewed on the way, at how much of the engine's service."""

    engine = models.ForeignKey(Engine, models.CASCADE, related_name="renewed_parts")
    component = models.CharField(max_length=64)
    at = models.DecimalField(max_digits=12, decimal_places=2)
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["component"]
        constraints = [
            models.UniqueConstraint(fields=["engine", "component"], name="renewed_part_once_an_engine"),
            models.CheckConstraint(condition=Q(at__gte=0), name="renewed_at_not_negative"),
        ]

    def __str__(self) -> str:
        return f"{self.component} at {self.at} {self.unit}"
