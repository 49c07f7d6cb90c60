"""A person who was asked to join, and has not set a password of their own yet."""

from __future__ import annotations

from datetime import datetime

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.db.models.functions import Lower
from django.utils.translation import gettext_lazy as _


class InvitationQuerySet(models.QuerySet["Invitation"]):
    def open(self) -> InvitationQuerySet:
        """Neither taken nor withdrawn; it may have run out, and can then be sent again."""
        return self.filter(taken_at=None, withdrawn_at=None)

    def working(self, now: datetime) -> InvitationQuerySet:
        """Those whose link opens."""
        return self.open().filter(expires_at__gt=now)


class Invitation(models.Model):
    """What the owner entered. The link's token is kept as its SHA-256; each sending makes another."""

    name = models.CharField(max_length=150, help_text=_("the person's name, as it stands on papers"))
    role = models.CharField(max_length=10)
    mail = models.EmailField(max_length=254)
    token_hash = models.CharField(max_length=64, unique=True)
    invited_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    invited_at = models.DateTimeField()
    sent_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    taken_at = models.DateTimeField(null=True, blank=True)
    user = models.OneToOneField(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="invitation"
    )

    objects = InvitationQuerySet.as_manager()

    class Meta:
        ordering = ["-invited_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                Lower("mail"),
                condition=Q(taken_at=None, withdrawn_at=None),
                name="invitation_open_once_a_mail",
                violation_error_message=_(
                    "An invitation to this mail address is open already: send it again."
                ),
            ),
            models.CheckConstraint(
                condition=Q(taken_at=None, user=None) | Q(taken_at__isnull=False, user__isnull=False),
                name="invitation_taken_by_somebody",
            ),
            models.CheckConstraint(
                condition=Q(expires_at__gt=F("sent_at")), name="invitation_runs_out_after_it_was_sent"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name}, {self.role}"
