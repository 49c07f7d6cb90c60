"""Findings of a strip-down, and events that were told or logged."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from catalogue.models.base import Entry, in_order, not_negative, one_of, text_field
from catalogue.models.choices import FindingGrade, RodType
from catalogue.models.component import Component
from catalogue.models.machine_work import MachineWork
from catalogue.models.operation import Operation


class Finding(Entry):
    """Something seen on a component."""

    name = models.CharField("what is seen", max_length=200)
    component = models.ForeignKey(Component, models.PROTECT, related_name="findings")
    grade = models.CharField(max_length=10, choices=FindingGrade)
    cause = text_field()
    only_rod_type = models.CharField(max_length=20, choices=RodType, blank=True, default="")
    opens = models.ForeignKey(Operation, models.PROTECT, null=True, blank=True, related_name="opened_by")
    instead_for_roller_rod = models.BooleanField(default=False)
    """Whether engines with a pressed-up crank ask for other things instead."""
    tell_customer = text_field()
    note = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [one_of("finding", "grade", FindingGrade)]


class Event(Entry):
    """Something told or logged, without a finding yet. It is not wear: it adds no service."""

    name = models.CharField(max_length=200)
    same_as_finding = models.ForeignKey(Finding, models.PROTECT, null=True, blank=True, related_name="events")
    pct_over_low = models.FloatField(null=True, blank=True)
    pct_over_high = models.FloatField(null=True, blank=True)
    instead_for_roller_rod = models.BooleanField(default=False)
    note = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            not_negative("event", "pct_over_low"),
            in_order("event", "pct_over_low", "pct_over_high"),
        ]


class SeenRole(models.TextChoices):
    ANY_OF = "any_of", "one of these is named"
    RENEW = "renew", "renewed"
    RENEW_ROLLER = "if_one_piece_roller_rod.renew", "renewed instead, with a pressed-up crank"
    INSPECT = "inspect_operations", "looked at"
    INSPECT_HARD = "inspect_if_hard_hit", "looked at after a hard hit"
    WORK = "machine_work", "sent out"
    WORK_IF_NEEDED = "machine_work_if_needed", "sent out if the measurement asks for it"
    WORK_ROLLER = "if_one_piece_roller_rod.machine_work", "sent out instead, with a pressed-up crank"


class Asked(models.Model):
    """What a finding or an event asks for: exactly one component, operation or machine work."""

    role = models.CharField(max_length=40, choices=SeenRole)
    position = models.PositiveSmallIntegerField()
    component = models.ForeignKey(Component, models.PROTECT, null=True, blank=True, related_name="+")
    operation = models.ForeignKey(Operation, models.PROTECT, null=True, blank=True, related_name="+")
    machine_work = models.ForeignKey(MachineWork, models.PROTECT, null=True, blank=True, related_name="+")

    class Meta:
        abstract = True

    def __str__(self) -> str:
        return f"{self.get_role_display()}: {self.component_id or self.operation_id or self.machine_work_id}"


ONE_OF_THREE = (
    Q(component__isnull=False, operation__isnull=True, machine_work__isnull=True)
    | Q(component__isnull=True, operation__isnull=False, machine_work__isnull=True)
    | Q(component__isnull=True, operation__isnull=True, machine_work__isnull=False)
)


class FindingAsks(Asked):
    """What a finding asks for."""

    finding = models.ForeignKey(Finding, models.CASCADE, related_name="asks")

    class Meta:
        ordering = ["finding", "role", "position"]
        constraints = [
            models.UniqueConstraint(fields=["finding", "role", "position"], name="finding_asks_once"),
            models.CheckConstraint(condition=ONE_OF_THREE, name="finding_asks_one_thing"),
            one_of("finding_asks", "role", SeenRole),
        ]


class EventAsks(Asked):
    """What an event asks for."""

    event = models.ForeignKey(Event, models.CASCADE, related_name="asks")

    class Meta:
        ordering = ["event", "role", "position"]
        constraints = [
            models.UniqueConstraint(fields=["event", "role", "position"], name="event_asks_once"),
            models.CheckConstraint(condition=ONE_OF_THREE, name="event_asks_one_thing"),
            one_of("event_asks", "role", SeenRole),
        ]
