"""Labour operations: bench work with standard hours, what it needs first and what it takes."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q

from catalogue.models.base import Entry, name_field, not_negative, one_of, positive, text_field
from catalogue.models.choices import Attribute, KindOfWork, TakenRule
from catalogue.models.component import Component
from catalogue.models.engine_type import EngineType


class Operation(Entry):
    """A piece of bench work; an engine type without hours does not have it."""

    name = name_field()
    kind = models.CharField(max_length=10, choices=KindOfWork)
    per_piece_piece = models.CharField(max_length=64, blank=True, default="")
    per_piece_hours = models.DecimalField(max_digits=8, decimal_places=4, null=True, blank=True)
    records = text_field()
    """What the assembly record asks for, one a line."""
    note = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            one_of("operation", "kind", KindOfWork),
            not_negative("operation", "per_piece_hours"),
            models.CheckConstraint(
                condition=Q(per_piece_piece="", per_piece_hours__isnull=True)
                | (~Q(per_piece_piece="") & Q(per_piece_hours__isnull=False)),
                name="operation_piece_with_its_hours",
            ),
        ]


class OperationHours(models.Model):
    """Fixed hours of an operation on one engine type."""

    operation = models.ForeignKey(Operation, models.CASCADE, related_name="hours")
    engine_type = models.ForeignKey(EngineType, models.PROTECT, related_name="+")
    hours = models.DecimalField(max_digits=8, decimal_places=4)

    class Meta:
        ordering = ["operation", "engine_type"]
        constraints = [
            models.UniqueConstraint(fields=["operation", "engine_type"], name="operation_hours_once_a_type"),
            not_negative("operation_hours", "hours"),
        ]

    def __str__(self) -> str:
        return f"{self.hours.normalize():f} h"


class OperationRole(models.TextChoices):
    REQUIRES = "requires", "requires"
    REQUIRES_IF = "requires_if", "requires, where it applies"
    AFTER = "after", "comes after"
    UNDO = "undo", "is undone by"


class OperationLink(models.Model):
    """How one operation bears on another. A condition is written only where the role asks for one."""

    operation = models.ForeignKey(Operation, models.CASCADE, related_name="links")
    role = models.CharField(max_length=12, choices=OperationRole)
    position = models.PositiveSmallIntegerField()
    other = models.ForeignKey(Operation, models.PROTECT, related_name="linked_from")
    condition = models.PositiveSmallIntegerField(default=0)
    """Which of the operation's conditions it belongs to."""
    attribute = models.CharField(max_length=20, choices=Attribute, blank=True, default="")
    equals = models.CharField(max_length=64, blank=True, default="")

    class Meta:
        ordering = ["operation", "role", "position"]
        constraints = [
            models.UniqueConstraint(fields=["operation", "role", "position"], name="operation_link_once"),
            one_of("operation_link", "role", OperationRole),
            models.CheckConstraint(condition=~Q(operation=F("other")), name="operation_link_to_another"),
            models.CheckConstraint(
                condition=(Q(role="requires_if") & ~Q(attribute="") & ~Q(equals=""))
                | (~Q(role="requires_if") & Q(attribute="", equals="")),
                name="operation_link_condition_where_asked",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.operation_id} {self.get_role_display()} {self.other_id}"


class OperationComponent(models.Model):
    """A component that an operation is about."""

    operation = models.ForeignKey(Operation, models.CASCADE, related_name="about")
    position = models.PositiveSmallIntegerField()
    component = models.ForeignKey(Component, models.PROTECT, related_name="operations")

    class Meta:
        ordering = ["operation", "position"]
        constraints = [
            models.UniqueConstraint(fields=["operation", "component"], name="operation_component_once"),
        ]

    def __str__(self) -> str:
        return f"{self.operation_id} is about {self.component_id}"


class Consumption(models.Model):
    """A part that the refit takes: a number of them, as many as are measured out, or else a full set."""

    operation = models.ForeignKey(Operation, models.CASCADE, related_name="consumes")
    position = models.PositiveSmallIntegerField()
    component = models.ForeignKey(Component, models.PROTECT, related_name="consumed_by")
    quantity = models.PositiveSmallIntegerField(null=True, blank=True)
    as_measured = models.BooleanField(default=False)
    rule = models.CharField(max_length=10, choices=TakenRule)

    class Meta:
        ordering = ["operation", "position"]
        constraints = [
            models.UniqueConstraint(fields=["operation", "component"], name="consumption_once"),
            one_of("consumption", "rule", TakenRule),
            positive("consumption", "quantity"),
            models.CheckConstraint(
                condition=Q(as_measured=False) | Q(quantity__isnull=True),
                name="consumption_number_or_measured",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.operation_id} takes {self.component_id}"
