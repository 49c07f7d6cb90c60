"""Tax codes: a category of EN 16931 with its rate in one or more components."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _


class TaxCategory(models.TextChoices):
    STANDARD = "S", _("S: standard rate")
    ZERO = "Z", _("Z: zero rated")
    EXEMPT = "E", _("E: exempt")
    REVERSE = "AE", _("AE: reverse charge")
    WITHIN_UNION = "K", _("K: within the union")
    EXPORT = "G", _("G: export")
    OUTSIDE = "O", _("O: outside the scope of tax")


class TaxCodeQuerySet(models.QuerySet["TaxCode"]):
    def with_rates(self) -> TaxCodeQuerySet:
        return self.prefetch_related("components", "rates")


class TaxCode(models.Model):
    """What a line kind points to, as it was from the beginning. Only categories S may carry a rate."""

    code = models.CharField(max_length=20, unique=True)
    category = models.CharField(max_length=2, choices=TaxCategory.choices, default=TaxCategory.STANDARD)
    reason = models.CharField(max_length=200, blank=True, default="")

    objects = TaxCodeQuerySet.as_manager()

    class Meta:
        ordering = ["code"]

    def __str__(self) -> str:
        return self.code


class TaxComponent(models.Model):
    """One layer of a tax code: state, county, city; a value added tax has one."""

    tax_code = models.ForeignKey(TaxCode, models.CASCADE, related_name="components")
    order = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=60)
    rate_pct = models.DecimalField(
        max_digits=7,
        decimal_places=4,
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(100))],
    )

    class Meta:
        ordering = ["order", "id"]
        constraints = [
            models.UniqueConstraint(fields=["tax_code", "order"], name="tax_component_order_once"),
            models.CheckConstraint(condition=Q(rate_pct__gte=0), name="tax_rate_not_negative"),
        ]

    def __str__(self) -> str:
        return f"{self.name} {self.rate_pct} %"


class TaxRate(models.Model):
    """What a tax code is from a day on, until its next rate begins; its components hold before the first.

    A document bears the rate of its day of supply. `components` are pairs of name and rate in per cent.
    """

    tax_code = models.ForeignKey(TaxCode, models.CASCADE, related_name="rates")
    valid_from = models.DateField()
    category = models.CharField(max_length=2, choices=TaxCategory.choices)
    reason = models.CharField(max_length=200, blank=True, default="")
    components = models.JSONField(default=list, blank=True)

    objects: ClassVar[models.Manager[TaxRate]] = models.Manager()

    class Meta:
        ordering = ["valid_from"]
        constraints = [
            models.UniqueConstraint(
                fields=["tax_code", "valid_from"],
                name="tax_rate_begins_once",
                violation_error_message=_("A rate of that tax code begins on that day already."),
            )
        ]

    def __str__(self) -> str:
        return f"{self.tax_code} from {self.valid_from}"
