"""Components: the places where an engine wears, with their lives and what is measured on them."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q, Value

from catalogue.models.base import (
    Entry,
    in_order,
    name_field,
    not_negative,
    one_of,
    positive,
    text_field,
    within,
)
from catalogue.models.choices import Confidence, Consequence, JudgedBy, LifeBasis, SingleUse

ROUNDING = 1e-6
"""Shares are written with a few decimals: their sum may be off by the last bit."""
_OTHERS = (
    F("drivers_gas")
    + F("drivers_heat")
    + F("drivers_shifts")
    + F("drivers_launches")
    + F("drivers_dirt")
    + F("drivers_time")
)


class Component(Entry):
    """Counted and renewed as a set. A count of 0 means that the engine type does not have it."""

    name = name_field()
    group = models.CharField(max_length=64)
    count = models.JSONField(default=dict)
    """Pieces of a set, by engine type."""
    single_use = models.CharField(max_length=10, choices=SingleUse)
    consequence_class = models.CharField(max_length=10, choices=Consequence)
    judged_by = models.CharField(max_length=10, choices=JudgedBy)
    judged_by_if_one_piece_roller_rod = models.CharField(
        max_length=10, choices=JudgedBy, blank=True, default=""
    )
    """Blank: as on the others."""
    service_item = models.BooleanField(default=False)
    life_source = text_field()
    life_confidence = models.CharField(max_length=10, choices=Confidence, blank=True, default="")
    drivers_inertia = models.FloatField(default=0)
    drivers_gas = models.FloatField(default=0)
    drivers_heat = models.FloatField(default=0)
    drivers_shifts = models.FloatField(default=0)
    drivers_launches = models.FloatField(default=0)
    drivers_dirt = models.FloatField(default=0)
    drivers_time = models.FloatField(default=0)
    weibull_shape = models.FloatField()
    stopping_share = models.FloatField(null=True, blank=True)
    evidence_r0 = models.FloatField(null=True, blank=True)
    grade_strength = models.FloatField(null=True, blank=True)
    """How much more load its performance grade bears for the same life; none given is 1, as stock."""
    rider_hazards = text_field()
    """One a line, as are the failure modes."""
    failure_modes = text_field()
    note = text_field()
    sources = models.JSONField(default=dict, blank=True)
    """Where each value came from, by field."""

    class Meta(Entry.Meta):
        constraints = [
            one_of("component", "single_use", SingleUse),
            one_of("component", "consequence_class", Consequence),
            one_of("component", "judged_by", JudgedBy),
            one_of("component", "life_confidence", Confidence),
            positive("component", "weibull_shape", "evidence_r0"),
            not_negative(
                "component",
                "drivers_inertia",
                "drivers_gas",
                "drivers_heat",
                "drivers_shifts",
                "drivers_launches",
                "drivers_dirt",
                "drivers_time",
            ),
            within("component", "stopping_share", 0, 1),
            within("component", "grade_strength", 1, 3),
            models.CheckConstraint(
                condition=Q(
                    drivers_inertia__gt=Value(1 - ROUNDING) - _OTHERS,
                    drivers_inertia__lt=Value(1 + ROUNDING) - _OTHERS,
                ),
                name="component_shares_add_up_to_one",
            ),
        ]


class ComponentLife(models.Model):
    """A reference life in the unit of its basis."""

    component = models.ForeignKey(Component, models.CASCADE, related_name="lives")
    basis = models.CharField(max_length=10, choices=LifeBasis)
    typical = models.FloatField()
    low = models.FloatField()
    high = models.FloatField()

    class Meta:
        ordering = ["component", "-basis"]
        constraints = [
            models.UniqueConstraint(fields=["component", "basis"], name="component_life_once_a_basis"),
            one_of("component_life", "basis", LifeBasis),
            positive("component_life", "low"),
            in_order("component_life", "low", "typical", "high"),
        ]

    def __str__(self) -> str:
        return f"{self.typical:g} {self.get_basis_display()}"


class Measured(models.Model):
    """What is measured on a component, as the bench would say it."""

    component = models.ForeignKey(Component, models.CASCADE, related_name="measured")
    position = models.PositiveSmallIntegerField()
    what = text_field()
    rule = text_field()
    limit = text_field()
    source = text_field()

    class Meta:
        ordering = ["component", "position"]
        constraints = [
            models.UniqueConstraint(fields=["component", "position"], name="measured_position_once"),
        ]

    def __str__(self) -> str:
        return self.what
