"""What became of the service that a build was sold for, and what the shop's factor was set to for it."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.bench.fields import amount_of_use, code, once_key, person, said
from quotes.models.bench.job import Job
from quotes.models.engine import ServiceUnit
from quotes.models.frozen import Frozen, FrozenQuerySet


class ServiceEnd(models.TextChoices):
    RAN = "ran", _("it did not stop")
    STOPPED = "stopped", _("it stopped")
    OUTSIDE = "outside", _("it was stopped by what no estimate counts")
    UNKNOWN = "unknown", _("nobody knows")


class ServiceOutcomeQuerySet(FrozenQuerySet["ServiceOutcome"]):
    def standing(self) -> ServiceOutcomeQuerySet:
        """Without those that were taken back."""
        return self.filter(withdrawn_at=None)


class ServiceOutcome(Frozen):
    """Whether a build saw out the service that it was sold for, beside what was promised; once a build.

    The promise is copied from the sheet that was accepted. `wear_hazard` and `hands_hazard` are what it comes
    to over what was really run, with the `shop_factor` of that sheet counted in the first.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"withdrawn_at", "withdrawn_by", "withdrawn_because"})

    key = once_key()
    build = models.ForeignKey("Acceptance", models.PROTECT, related_name="outcomes")
    job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="outcomes")
    """The visit at which it was told, where it was told at one."""
    type_code = code()
    tier = code()
    duty = code()
    planned = models.DecimalField(max_digits=12, decimal_places=2)
    ran = amount_of_use()
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    chance = models.FloatField()
    chance_low = models.FloatField()
    chance_high = models.FloatField()
    shop_factor = models.FloatField()
    wear_hazard = models.FloatField()
    hands_hazard = models.FloatField()
    end = models.CharField(max_length=10, choices=ServiceEnd.choices)
    stopped_by = code(blank=True, default="")
    """The component, or `OWN_HANDS`; empty where it is not known."""
    on = models.DateField()
    told_by = said(200)
    note = said(500)
    at = models.DateTimeField()
    by = person()
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    withdrawn_by = said(150)
    withdrawn_because = said()

    OWN_HANDS: ClassVar[str] = "own_hands"

    objects = ServiceOutcomeQuerySet.as_manager()

    class Meta:
        ordering = ["on", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["build"], condition=Q(withdrawn_at=None), name="service_outcome_once_a_build"
            ),
            models.CheckConstraint(
                condition=Q(end="unknown", ran=None) | (~Q(end="unknown") & Q(ran__gte=0)),
                name="service_outcome_says_how_far",
            ),
            models.CheckConstraint(
                condition=Q(chance__gt=0, chance__lte=1, wear_hazard__gte=0, hands_hazard__gte=0),
                name="service_outcome_has_a_promise",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.build}: {self.get_end_display()}"


class ShopFactorChangeQuerySet(FrozenQuerySet["ShopFactorChange"]):
    """Refuses change and deletion in bulk."""


class ShopFactorChange(Frozen):
    """The owner's word on the factor that scales every hazard: from what to what, why, and on what record.

    `record` is what stood on the page then: services, stops promised and seen, and the factor offered.
    """

    before = models.DecimalField(max_digits=5, decimal_places=3)
    after = models.DecimalField(
        max_digits=5,
        decimal_places=3,
        validators=[MinValueValidator(Decimal("0.1")), MaxValueValidator(Decimal(10))],
    )
    reason = models.CharField(max_length=500)
    record = models.JSONField(default=dict, blank=True)
    takes_back = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="taken_back_by"
    )
    at = models.DateTimeField()
    by = person()

    objects = ShopFactorChangeQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-id"]
        constraints = [
            models.CheckConstraint(condition=~Q(reason=""), name="shop_factor_changed_for_a_reason"),
            models.CheckConstraint(
                condition=Q(after__gte=Decimal("0.1"), after__lte=10), name="shop_factor_in_its_limits"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.before} to {self.after}"
