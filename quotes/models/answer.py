"""What the customer says: yes to one option, a question, or no."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.frozen import Frozen, FrozenQuerySet


class AcceptanceQuerySet(FrozenQuerySet["Acceptance"]):
    def in_hand(self) -> AcceptanceQuerySet:
        """Builds whose bench work is not done, and that nobody has called off."""
        return self.filter(done_at=None, called_off=None)

    def to_invoice(self) -> AcceptanceQuerySet:
        """Builds off the bench of which nothing is asked for."""
        return self.filter(done_at__isnull=False, invoiced_at=None)


class Acceptance(Frozen):
    """Who said yes to which option of which revision, when, and up to what sum.

    `gross` is the sum with tax that was shown beside the yes; `limit_sum` what more may be spent without
    asking. `sheet_sha256` is the fingerprint of the sheet that was shown. `invoiced_at` is when it was
    invoiced; empty where it was not, or where credit notes have taken back all of it.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"receipt", "done_at", "done_by", "invoiced_at"})

    quote = models.OneToOneField("Quote", models.PROTECT, related_name="acceptance")
    revision = models.OneToOneField("Revision", models.PROTECT, related_name="acceptance")
    tier = models.CharField(max_length=64)
    tier_name = models.CharField(max_length=120)
    extras = models.JSONField(default=list, blank=True)
    name = models.CharField(max_length=200)
    right = models.CharField(max_length=200, blank=True, default="")
    telephone = models.CharField(max_length=40, blank=True, default="")
    limit_pct = models.DecimalField(max_digits=6, decimal_places=2)
    limit_sum = models.DecimalField(max_digits=14, decimal_places=2)
    gross = models.DecimalField(max_digits=14, decimal_places=2)
    deposit = models.DecimalField(max_digits=14, decimal_places=2)
    hours = models.DecimalField(max_digits=8, decimal_places=2)
    ready_on = models.DateField(null=True, blank=True, default=None)
    """The day promised, at 8 in 10."""
    sheet_sha256 = models.CharField(max_length=64)
    agreed_terms = models.BooleanField()
    rider_safety_read = models.BooleanField(default=False)
    accepted_at = models.DateTimeField()
    receipt = models.OneToOneField("StoredFile", models.PROTECT, null=True, blank=True, related_name="+")
    done_at = models.DateTimeField(null=True, blank=True)
    done_by = models.CharField(max_length=150, blank=True, default="")
    invoiced_at = models.DateTimeField(null=True, blank=True)

    objects = AcceptanceQuerySet.as_manager()

    class Meta:
        ordering = ["-accepted_at", "-id"]
        indexes = [
            models.Index(fields=["accepted_at"], name="acceptance_accepted_at"),
            models.Index(fields=["done_at", "id"], name="acceptance_done"),
            models.Index(fields=["accepted_at"], condition=Q(done_at=None), name="acceptance_in_hand"),
            models.Index(
                fields=["done_at", "id"],
                condition=Q(done_at__isnull=False, invoiced_at=None),
                name="acceptance_to_invoice",
            ),
        ]
        constraints = [
            models.CheckConstraint(condition=Q(agreed_terms=True), name="acceptance_agrees_to_terms"),
            models.CheckConstraint(
                condition=Q(limit_sum__gte=0, gross__gte=0), name="acceptance_sums_not_negative"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name}: {self.tier_name}"

    @property
    def is_called_off(self) -> bool:
        """Whether it was called off after the yes; join `called_off` where many are asked."""
        return getattr(self, "called_off", None) is not None


class ReplyKind(models.TextChoices):
    QUESTION = "question", _("question")
    DECLINE = "decline", _("decline")


class ReplyQuerySet(models.QuerySet["Reply"]):
    def unanswered(self) -> ReplyQuerySet:
        return self.filter(kind=ReplyKind.QUESTION, answered_at=None)


class Reply(models.Model):
    """A question about a revision, or a no with its reason."""

    revision = models.ForeignKey("Revision", models.PROTECT, related_name="replies")
    kind = models.CharField(max_length=8, choices=ReplyKind.choices)
    text = models.TextField(max_length=4000, blank=True, default="")
    name = models.CharField(max_length=200, blank=True, default="")
    at = models.DateTimeField()
    answer = models.TextField(max_length=4000, blank=True, default="")
    answered_at = models.DateTimeField(null=True, blank=True)
    answered_by = models.CharField(max_length=150, blank=True, default="")

    objects = ReplyQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-id"]
        indexes = [
            models.Index(
                fields=["at"],
                condition=Q(kind=ReplyKind.QUESTION, answered_at=None),
                name="reply_unanswered",
            )
        ]

    def __str__(self) -> str:
        return f"{self.get_kind_display()} by {self.name}"
