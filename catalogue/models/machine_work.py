"""Machine work: what is sent out, to whom, at what price and for how long."""

from __future__ import annotations

from django.db import models

from catalogue.models.base import (
    Entry,
    in_order,
    money_field,
    name_field,
    not_negative,
    one_of,
    positive,
    text_field,
)
from catalogue.models.choices import WorkUnit
from catalogue.models.component import Component
from catalogue.models.operation import Operation
from catalogue.models.supplier import Supplier


class MachineWork(Entry):
    """At the outside shop's price per unit, before markup and tax. Lead times in working days."""

    name = name_field()
    unit = models.CharField(max_length=20, choices=WorkUnit)
    cost_typical = money_field()
    cost_low = money_field()
    cost_high = money_field()
    lead_typical_days = models.FloatField()
    lead_slow_days = models.FloatField()
    vendor = models.ForeignKey(Supplier, models.PROTECT, related_name="machine_work")
    note = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        verbose_name_plural = "machine work"
        constraints = [
            one_of("machine_work", "unit", WorkUnit),
            not_negative("machine_work", "cost_low"),
            in_order("machine_work", "cost_low", "cost_typical", "cost_high"),
            positive("machine_work", "lead_typical_days"),
            in_order("machine_work", "lead_typical_days", "lead_slow_days"),
        ]


class WorkNeeds(models.Model):
    """An operation that must be done before the piece can be sent out."""

    machine_work = models.ForeignKey(MachineWork, models.CASCADE, related_name="needs")
    position = models.PositiveSmallIntegerField()
    operation = models.ForeignKey(Operation, models.PROTECT, related_name="machine_work")

    class Meta:
        ordering = ["machine_work", "position"]
        constraints = [
            models.UniqueConstraint(fields=["machine_work", "operation"], name="work_needs_once"),
        ]

    def __str__(self) -> str:
        return f"{self.machine_work_id} needs {self.operation_id}"


class WorkComponent(models.Model):
    """A component that a machine work is about."""

    machine_work = models.ForeignKey(MachineWork, models.CASCADE, related_name="about")
    position = models.PositiveSmallIntegerField()
    component = models.ForeignKey(Component, models.PROTECT, related_name="machine_work")

    class Meta:
        ordering = ["machine_work", "position"]
        constraints = [
            models.UniqueConstraint(fields=["machine_work", "component"], name="work_component_once"),
        ]

    def __str__(self) -> str:
        return f"{self.machine_work_id} is about {self.component_id}"
