"""Grading limits: defaults that yield to the maker's manual."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q

from catalogue.models.base import Entry, in_order, name_field, one_of, text_field
from catalogue.models.choices import BadWhen
from catalogue.models.component import Component


class Limit(Entry):
    """A measured quantity: its range when new, where to watch it and where it must be renewed."""

    component = models.ForeignKey(Component, models.PROTECT, related_name="limits")
    quantity = name_field()
    unit = models.CharField(max_length=200)
    bad_when = models.CharField(max_length=10, choices=BadWhen)
    basis = text_field()
    standard_low = models.FloatField()
    standard_high = models.FloatField()
    limit = models.FloatField()
    watch = models.FloatField(null=True, blank=True)
    alternative_to = models.ForeignKey(
        "self", models.PROTECT, null=True, blank=True, related_name="alternatives"
    )
    from_manual = models.BooleanField("from the maker's manual of the engine in hand", default=False)
    note = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            one_of("limit", "bad_when", BadWhen),
            in_order("limit", "standard_low", "standard_high"),
            models.CheckConstraint(
                condition=Q(bad_when="above", limit__gte=F("standard_high"))
                | Q(bad_when="below", limit__lte=F("standard_low")),
                name="limit_past_the_standard",
            ),
        ]

    def __str__(self) -> str:
        return self.quantity
