"""A life that the owner changed on the strength of the workshop's own record. Signed; never altered."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar, NoReturn

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from catalogue.models.choices import LifeBasis


class LifeChange(models.Model):
    """An approved change of one component's life on one basis, or the taking back of one.

    `engine_type` empty means every type. `rests_on` is the change that stood when this one was worked out:
    what it counted is in this one too, and only once. A catalogue loaded later leaves all this alone.
    """

    key = models.UUIDField(unique=True, default=uuid.uuid4, editable=False)
    component = models.CharField(max_length=64)
    basis = models.CharField(max_length=10, choices=LifeBasis.choices)
    engine_type = models.CharField(max_length=64, blank=True, default="")
    rests_on = models.ForeignKey("self", models.PROTECT, null=True, blank=True, related_name="carries")
    takes_back = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="taken_back"
    )
    rule = models.CharField(max_length=10, choices=[("learnt", "learnt"), ("likelihood", "likelihood")])
    low = models.FloatField()
    typical = models.FloatField()
    high = models.FloatField()
    shape = models.FloatField()
    evidence = models.FloatField()
    """As it stands from then on; in a row that takes back, what stood before."""
    was = models.JSONField()
    """The same five figures before."""
    data = models.JSONField()
    """The rows of evidence that it counts, frozen, and the sentences that the owner was shown."""
    counted = models.JSONField(default=list)
    """Keys of all evidence behind it, with what it rests on."""
    teardowns = models.JSONField(default=list)
    """Keys of all strip-downs behind it, likewise."""
    reason = models.CharField(max_length=500)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField()

    objects: ClassVar[models.Manager[LifeChange]] = models.Manager()

    class Meta:
        ordering = ["-id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(low__gt=0, typical__gte=F("low"), high__gte=F("typical")),
                name="life_change_low_to_high",
            ),
            models.CheckConstraint(condition=Q(shape__gt=0, evidence__gt=0), name="life_change_has_a_law"),
            models.CheckConstraint(condition=~Q(reason=""), name="life_change_says_why"),
        ]

    def __str__(self) -> str:
        what = "taken back" if self.takes_back_id else "approved"
        return f"{self.component} on {self.basis}, {what} {self.at:%Y-%m-%d}"

    def save(self, *args: Any, **options: Any) -> None:
        """Insert the row; it is never changed."""
        if not self._state.adding:
            raise TypeError(f"{self}: a change of a life is not altered, it is taken back by another")
        super().save(*args, **options)

    def delete(self, *args: Any, **options: Any) -> NoReturn:
        raise TypeError(f"{self}: a change of a life is not deleted")
