"""Where a person is signed in."""

from __future__ import annotations

from datetime import datetime

from django.conf import settings
from django.db import models


class SignInQuerySet(models.QuerySet["SignIn"]):
    def standing(self, *, now: datetime, used_after: datetime) -> SignInQuerySet:
        """Neither run out nor left idle."""
        return self.filter(session__expire_date__gt=now, last_used__gt=used_after)


class SignIn(models.Model):
    """One browser of one person, from the password to the end of its session, with which the row goes."""

    user = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="sign_ins")
    session = models.OneToOneField("sessions.Session", models.CASCADE, related_name="sign_in")
    browser = models.CharField(max_length=255, blank=True, default="")
    address = models.GenericIPAddressField(null=True, blank=True)
    since = models.DateTimeField()
    last_used = models.DateTimeField(help_text="written once in some minutes, not at every page")

    objects = SignInQuerySet.as_manager()

    class Meta:
        ordering = ["-last_used", "-id"]

    def __str__(self) -> str:
        return f"signed in since {self.since:%Y-%m-%d %H:%M}"
