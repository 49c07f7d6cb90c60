"""How a component is reached and what goes with it: operations, machine work, other components."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q

from catalogue.models.base import one_of, positive, text_field
from catalogue.models.component import Component
from catalogue.models.machine_work import MachineWork
from catalogue.models.operation import Operation


class CompanionRole(models.TextChoices):
    ON_RENEWAL = "companions_on_renewal", "renewed with it"
    ON_DAMAGE = "companions_on_damage", "looked at or renewed when it is found damaged"
    RECONDITIONED = "recondition_on_renewal", "reconditioned with it"
    COMES_WITH = "comes_with", "part of the article bought"
    COMES_WITH_ROLLER = (
        "comes_with_if_one_piece_roller_rod",
        "part of the article bought, with a pressed-up crank",
    )


class Companion(models.Model):
    """Another component that follows when this one is renewed or found damaged."""

    component = models.ForeignKey(Component, models.CASCADE, related_name="companions")
    role = models.CharField(max_length=40, choices=CompanionRole)
    position = models.PositiveSmallIntegerField()
    other = models.ForeignKey(Component, models.PROTECT, related_name="companion_of")

    class Meta:
        ordering = ["component", "role", "position"]
        constraints = [
            models.UniqueConstraint(fields=["component", "role", "other"], name="companion_once"),
            one_of("companion", "role", CompanionRole),
            models.CheckConstraint(condition=~Q(component=F("other")), name="companion_is_another"),
        ]

    def __str__(self) -> str:
        return f"{self.other_id} with {self.component_id}"


class Reach(models.Model):
    """How a component is renewed, or reconditioned; a second one where a pressed-up crank changes it."""

    component = models.ForeignKey(Component, models.CASCADE, related_name="reaches")
    for_roller_rod = models.BooleanField(default=False)
    machine_work_piece = models.CharField(max_length=64, blank=True, default="")
    recondition_life_share = models.FloatField(null=True, blank=True)
    recondition_max_times = models.PositiveSmallIntegerField(null=True, blank=True)
    recondition_quantity = models.PositiveSmallIntegerField(null=True, blank=True)
    recondition_source = text_field()

    class Meta:
        ordering = ["component", "for_roller_rod"]
        constraints = [
            models.UniqueConstraint(fields=["component", "for_roller_rod"], name="reach_once_a_rod_type"),
            positive("reach", "recondition_life_share", "recondition_max_times", "recondition_quantity"),
            models.CheckConstraint(
                condition=Q(recondition_life_share__isnull=True) | Q(recondition_life_share__lte=1),
                name="reach_recondition_share_at_most_one",
            ),
        ]

    def __str__(self) -> str:
        return f"how {self.component_id} is reached"


class WayRole(models.TextChoices):
    ACCESS = "access_operations", "reaches it"
    ANY_OF = "access_any_of", "one of the ways in"
    WITH = "with_operations", "goes with renewing it"
    INSPECTION = "inspection_operations", "inspects it"


class ComponentOperation(models.Model):
    """An operation that reaches a component, goes with renewing it or inspects it."""

    component = models.ForeignKey(Component, models.CASCADE, related_name="ways")
    for_roller_rod = models.BooleanField(default=False)
    role = models.CharField(max_length=24, choices=WayRole)
    way = models.PositiveSmallIntegerField(default=0)
    """Which of the ways in, where one of several is needed."""
    position = models.PositiveSmallIntegerField()
    operation = models.ForeignKey(Operation, models.PROTECT, related_name="reaches")

    class Meta:
        ordering = ["component", "for_roller_rod", "role", "way", "position"]
        constraints = [
            models.UniqueConstraint(
                fields=["component", "for_roller_rod", "role", "way", "operation"], name="way_once"
            ),
            one_of("way", "role", WayRole),
        ]

    def __str__(self) -> str:
        return f"{self.operation_id} {self.get_role_display()}: {self.component_id}"


class ComponentWorkRole(models.TextChoices):
    RENEWAL = "machine_work", "sent out when it is renewed"
    RECONDITION = "recondition", "in place of a new part"


class ComponentWork(models.Model):
    """Machine work that goes with renewing a component, or reconditions it."""

    component = models.ForeignKey(Component, models.CASCADE, related_name="sent_out")
    for_roller_rod = models.BooleanField(default=False)
    role = models.CharField(max_length=24, choices=ComponentWorkRole)
    position = models.PositiveSmallIntegerField()
    machine_work = models.ForeignKey(MachineWork, models.PROTECT, related_name="for_components")

    class Meta:
        ordering = ["component", "for_roller_rod", "role", "position"]
        constraints = [
            models.UniqueConstraint(
                fields=["component", "for_roller_rod", "role", "machine_work"], name="component_work_once"
            ),
            one_of("component_work", "role", ComponentWorkRole),
        ]

    def __str__(self) -> str:
        return f"{self.machine_work_id}: {self.component_id}"
