"""Tiers: ways of building, with what each changes, renews, sends out and costs in life."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from catalogue.models.base import Entry, in_order, name_field, one_of, positive, text_field
from catalogue.models.choices import Block, RodType
from catalogue.models.component import Component
from catalogue.models.engine_type import EngineType
from catalogue.models.machine_work import MachineWork
from catalogue.models.operation import Operation


class Tier(Entry):
    """A template of changes. `rank` 0 is the plainest: a higher one includes more tune."""

    name = name_field()
    rank = models.PositiveSmallIntegerField(unique=True)
    purpose = text_field()
    promise = text_field()
    compression_delta = models.FloatField("compression, points up")
    rev_limit_delta_pct = models.FloatField("rev limit, per cent up")
    breaks_compression = models.BooleanField(default=False)
    breaks_cams = models.BooleanField(default=False)
    breaks_porting = models.BooleanField(default=False)
    breaks_weight = models.BooleanField(default=False)
    power_gain_pct_typical = models.FloatField()
    power_gain_pct_low = models.FloatField()
    power_gain_pct_high = models.FloatField()
    power_note = text_field()
    power_source = text_field()
    opens_bottom_end = models.BooleanField(default=False)
    left_out_block = models.CharField(max_length=20, choices=Block, blank=True, default="")
    """Engines of this block keep some parts in unless the cases are open anyway."""
    left_out_note = text_field()
    life_factors_inertia = models.FloatField(default=1)
    life_factors_gas = models.FloatField(default=1)
    life_factors_heat = models.FloatField(default=1)
    life_factors_shifts = models.FloatField(default=1)
    life_factors_launches = models.FloatField(default=1)
    life_factors_dirt = models.FloatField(default=1)
    life_factors_time = models.FloatField(default=1)
    cost_multiple_typical = models.FloatField(null=True, blank=True)
    cost_multiple_low = models.FloatField(null=True, blank=True)
    cost_multiple_high = models.FloatField(null=True, blank=True)
    cost_multiple_source = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            models.CheckConstraint(condition=Q(rank__lte=2), name="tier_rank_at_most_two"),
            in_order("tier", "power_gain_pct_low", "power_gain_pct_typical", "power_gain_pct_high"),
            positive(
                "tier",
                "life_factors_inertia",
                "life_factors_gas",
                "life_factors_heat",
                "life_factors_shifts",
                "life_factors_launches",
                "life_factors_dirt",
                "life_factors_time",
            ),
        ]


class TierChange(models.Model):
    """What a tier changes, in words; for one engine type only, or for all."""

    tier = models.ForeignKey(Tier, models.CASCADE, related_name="changes")
    engine_type = models.ForeignKey(EngineType, models.PROTECT, null=True, blank=True, related_name="+")
    position = models.PositiveSmallIntegerField()
    what = models.CharField(max_length=64)
    text = text_field()

    class Meta:
        ordering = ["tier", "position"]
        constraints = [
            models.UniqueConstraint(
                fields=["tier", "what"], condition=Q(engine_type__isnull=True), name="tier_change_once"
            ),
            models.UniqueConstraint(fields=["tier", "what", "engine_type"], name="tier_change_once_a_type"),
        ]

    def __str__(self) -> str:
        return f"{self.what}: {self.text}"


class TierRole(models.TextChoices):
    RENEW = "renew", "renewed"
    RENEW_IF_DUE = "renew_if_due", "renewed if due"
    RECONDITION = "recondition", "reconditioned"
    PERFORMANCE = "performance_grade", "in performance grade"
    LEFT_OUT = "left_out", "left in unless the cases are open"


class TierComponent(models.Model):
    """What a tier does to a component."""

    tier = models.ForeignKey(Tier, models.CASCADE, related_name="components")
    role = models.CharField(max_length=20, choices=TierRole)
    position = models.PositiveSmallIntegerField()
    component = models.ForeignKey(Component, models.PROTECT, related_name="tiers")

    class Meta:
        ordering = ["tier", "role", "position"]
        constraints = [
            models.UniqueConstraint(fields=["tier", "role", "component"], name="tier_component_once"),
            one_of("tier_component", "role", TierRole),
        ]

    def __str__(self) -> str:
        return f"{self.component_id} {self.get_role_display()}"


class TierOperation(models.Model):
    """An operation that a tier asks for; some only where the block comes off."""

    tier = models.ForeignKey(Tier, models.CASCADE, related_name="operations")
    only_separate_block = models.BooleanField(default=False)
    position = models.PositiveSmallIntegerField()
    operation = models.ForeignKey(Operation, models.PROTECT, related_name="tiers")

    class Meta:
        ordering = ["tier", "only_separate_block", "position"]
        constraints = [
            models.UniqueConstraint(fields=["tier", "operation"], name="tier_operation_once"),
        ]

    def __str__(self) -> str:
        return f"{self.tier_id}: {self.operation_id}"


class TierWork(models.Model):
    """Machine work that a tier asks for, and the share of the full count that is sent."""

    tier = models.ForeignKey(Tier, models.CASCADE, related_name="machine_work")
    position = models.PositiveSmallIntegerField()
    machine_work = models.ForeignKey(MachineWork, models.PROTECT, related_name="tiers")
    share = models.FloatField(default=1)
    only_rod_type = models.CharField(max_length=20, choices=RodType, blank=True, default="")

    class Meta:
        ordering = ["tier", "position"]
        constraints = [
            models.UniqueConstraint(fields=["tier", "machine_work"], name="tier_work_once"),
            models.CheckConstraint(
                condition=Q(share__gt=0, share__lte=1), name="tier_work_share_above_nought"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.tier_id}: {self.machine_work_id}"
