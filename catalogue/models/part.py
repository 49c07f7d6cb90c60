"""Parts on the price list, and what suppliers ask for them."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

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
from catalogue.models.choices import Grade
from catalogue.models.component import Component
from catalogue.models.engine_type import EngineType
from catalogue.models.supplier import Supplier


class Part(Entry):
    """One part number, which is its code. Prices before tax."""

    engine_type = models.ForeignKey(EngineType, models.PROTECT, related_name="parts")
    component = models.ForeignKey(Component, models.PROTECT, related_name="parts")
    grade = models.CharField(max_length=20, choices=Grade)
    name = name_field()
    unit = models.CharField(max_length=200)
    quantity = models.PositiveSmallIntegerField()
    """How many of the unit a full renewal takes."""
    list_price = money_field()
    range_low = models.FloatField()
    """Factors on the price for its low and its high."""
    range_high = models.FloatField()
    note = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            models.UniqueConstraint(fields=["engine_type", "component", "grade"], name="part_once_a_grade"),
            one_of("part", "grade", Grade),
            not_negative("part", "list_price"),
            positive("part", "quantity", "range_low"),
            models.CheckConstraint(
                condition=Q(range_low__lte=1, range_high__gte=1), name="part_range_around_one"
            ),
        ]


class Offer(models.Model):
    """What one supplier asks for one unit of a part, before tax. Lead times in working days."""

    part = models.ForeignKey(Part, models.CASCADE, related_name="offers")
    supplier = models.ForeignKey(Supplier, models.PROTECT, related_name="offers")
    number = models.CharField(max_length=100, blank=True, default="")
    """The supplier's own number; empty where it is the part's."""
    holds = models.PositiveSmallIntegerField(default=1)
    """How many of the part's unit the supplier's one unit holds."""
    cost = money_field()
    pack = models.PositiveSmallIntegerField(default=1)
    """Sold in lots of so many."""
    minimum_quantity = models.PositiveSmallIntegerField(default=1)
    lead_typical_days = models.FloatField()
    lead_slow_days = models.FloatField()
    preferred = models.BooleanField(default=True)
    note = text_field()
    source = text_field()

    class Meta:
        ordering = ["part", "-preferred", "cost", "supplier"]
        constraints = [
            models.UniqueConstraint(fields=["part", "supplier"], name="offer_once_a_supplier"),
            models.UniqueConstraint(fields=["part"], condition=Q(preferred=True), name="offer_one_preferred"),
            not_negative("offer", "cost"),
            positive("offer", "pack", "minimum_quantity", "lead_typical_days"),
            models.CheckConstraint(condition=Q(holds__gte=1), name="offer_holds_one_or_more"),
            in_order("offer", "lead_typical_days", "lead_slow_days"),
        ]

    def __str__(self) -> str:
        return f"{self.part_id} from {self.supplier_id}"
