"""What the whole catalogue rests on, and the number that counts its changes."""

from __future__ import annotations

from django.db import models

from catalogue.models.base import Entry, positive, text_field, within


class Basis(Entry):
    """One row: the currency, and what components take where they say nothing themselves."""

    currency = models.CharField(max_length=3)
    life_quantile_miles = models.FloatField()
    """Share of sets failed or out of limits at the reference life, by its basis."""
    life_quantile_hours_mx = models.FloatField()
    life_quantile_source = text_field()
    evidence_r0 = models.FloatField()
    evidence_r0_source = text_field()
    stopping_share_session = models.FloatField()
    stopping_share_weekend = models.FloatField()
    stopping_share_engine = models.FloatField()
    stopping_share_source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            positive("basis", "evidence_r0"),
            within("basis", "life_quantile_miles", 1e-6, 1 - 1e-6),
            within("basis", "life_quantile_hours_mx", 1e-6, 1 - 1e-6),
            within("basis", "stopping_share_session", 0, 1),
            within("basis", "stopping_share_weekend", 0, 1),
            within("basis", "stopping_share_engine", 0, 1),
        ]

    def __str__(self) -> str:
        return "what the catalogue rests on"


class CatalogueVersion(models.Model):
    """One row that counts up with every change, so that what was worked out can be kept until then."""

    id = models.PositiveSmallIntegerField(primary_key=True, default=1, editable=False)
    number = models.PositiveIntegerField(default=0)
    mark = models.CharField(max_length=32, default="")
    """Drawn anew with every change: a number alone comes back when a copy of the database is restored."""

    class Meta:
        constraints = [
            models.CheckConstraint(condition=models.Q(id=1), name="catalogue_version_is_one_row"),
        ]

    def __str__(self) -> str:
        return f"{self.number}-{self.mark}"
