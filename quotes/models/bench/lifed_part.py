"""Parts that carry their own age from engine to engine, and the stretches they spent in each."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q

from quotes.models.bench.fields import amount_of_use, code, said
from quotes.models.bench.job import Job
from quotes.models.engine import Engine, ServiceUnit


class LifedPart(models.Model):
    """A part that carries its own age from engine to engine, by serial number or mark."""

    component = code()
    type_code = code()
    serial = models.CharField(max_length=80)
    grade = said(20)
    owner = models.ForeignKey("Customer", models.PROTECT, null=True, blank=True, related_name="lifed_parts")
    ran_before = amount_of_use()
    """What it had run before it came into our books; 0: new, None: nobody knows."""
    ran_before_unit = models.CharField(max_length=4, choices=ServiceUnit.choices, blank=True, default="")
    ran_before_duty = code(blank=True, default="")
    note = said(500)
    scrapped_on = models.DateField(null=True, blank=True)

    objects: ClassVar[models.Manager[LifedPart]] = models.Manager()

    class Meta:
        ordering = ["component", "serial"]
        constraints = [
            models.UniqueConstraint(fields=["component", "type_code", "serial"], name="lifed_part_once"),
            models.CheckConstraint(
                condition=Q(ran_before=None)
                | Q(ran_before=0)
                | (Q(ran_before__gt=0) & ~Q(ran_before_unit="") & ~Q(ran_before_duty="")),
                name="lifed_part_ran_before_in_a_unit",
            ),
        ]

    def __str__(self) -> str:
        return self.serial


class PartStay(models.Model):
    """A stretch that a lifed part spent in one engine, by that engine's own service at its two ends."""

    part = models.ForeignKey(LifedPart, models.PROTECT, related_name="stays")
    engine = models.ForeignKey(Engine, models.PROTECT, related_name="part_stays")
    job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="part_stays")
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    from_on = models.DateField()
    from_amount = models.DecimalField(max_digits=12, decimal_places=2)
    until_on = models.DateField(null=True, blank=True)
    until_amount = amount_of_use()
    fitted_by = said(150)
    taken_out_by = said(150)
    reconditioned_on = models.DateField(null=True, blank=True)
    """The part was reconditioned after this stay, and before the next one."""
    counts_for = models.DecimalField(max_digits=5, decimal_places=4, null=True, blank=True)
    """The share of all it had run by then that counts on."""

    objects: ClassVar[models.Manager[PartStay]] = models.Manager()

    class Meta:
        ordering = ["from_on", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["part"], condition=Q(until_on=None), name="lifed_part_in_one_engine"
            ),
            models.CheckConstraint(
                condition=Q(until_amount=None) | Q(until_amount__gte=models.F("from_amount")),
                name="part_stay_does_not_run_back",
            ),
            models.CheckConstraint(
                condition=Q(until_on=None, until_amount=None)
                | Q(until_on__isnull=False, until_amount__isnull=False),
                name="part_stay_ends_with_its_service",
            ),
            models.CheckConstraint(
                condition=Q(reconditioned_on=None, counts_for=None)
                | Q(reconditioned_on__gte=models.F("until_on"), counts_for__gte=0, counts_for__lte=1),
                name="part_is_reconditioned_out_of_the_engine",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.part} in {self.engine}"
