"""Work that is done in the background: what was asked for, who has it in hand, and how it ended."""

from __future__ import annotations

from datetime import datetime

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy


class WorkState(models.TextChoices):
    WAITING = "waiting", _("waits for its turn")
    RUNNING = "running", _("is being done")
    DONE = "done", _("done")
    FAILED = "failed", pgettext_lazy("work", "failed")


OPEN = (WorkState.WAITING, WorkState.RUNNING)


class BackgroundWorkQuerySet(models.QuerySet["BackgroundWork"]):
    def open(self) -> BackgroundWorkQuerySet:
        """Not ended yet."""
        return self.filter(state__in=OPEN)

    def failed(self) -> BackgroundWorkQuerySet:
        return self.filter(state=WorkState.FAILED)

    def held_by(self, holder: str) -> BackgroundWorkQuerySet:
        """In the hand of one that is at it: nobody else may end it."""
        return self.filter(state=WorkState.RUNNING, holder=holder)

    def silent_since(self, moment: datetime) -> BackgroundWorkQuerySet:
        """In a hand that has given no sign of life."""
        return self.filter(state=WorkState.RUNNING, seen_at__lt=moment)


class BackgroundWork(models.Model):
    """One work. Its key says what it is: asked for twice, it is done once.

    Done again is only what failed. The queue (`django_tasks`) holds no more than the key of this row.
    """

    key = models.CharField(max_length=200, unique=True)
    function = models.CharField(max_length=200, help_text="the dotted name of what does it")
    arguments = models.JSONField(default=dict)
    about = models.CharField(max_length=200, help_text="what it is, in the words of who asked")
    page = models.CharField(max_length=200, blank=True, default="", help_text="where its result is seen")
    language = models.CharField(max_length=10, help_text="in which it says how far it is, and what failed")
    asked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    asked_at = models.DateTimeField()
    state = models.CharField(max_length=10, choices=WorkState.choices, default=WorkState.WAITING)
    holder = models.CharField(max_length=100, blank=True, default="")
    seen_at = models.DateTimeField(null=True, blank=True, help_text="the holder's last sign of life")
    tries = models.PositiveIntegerField(default=0)
    done = models.PositiveIntegerField(default=0)
    of = models.PositiveIntegerField(default=0, help_text="nothing where nobody knows yet")
    doing = models.CharField(max_length=200, blank=True, default="")
    started_at = models.DateTimeField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    failed_because = models.TextField(blank=True, default="")

    objects = BackgroundWorkQuerySet.as_manager()

    class Meta:
        ordering = ["-asked_at", "-id"]
        indexes = [models.Index(fields=["state", "seen_at"], name="background_state")]

    def __str__(self) -> str:
        return self.about

    @property
    def is_open(self) -> bool:
        return self.state in OPEN

    @property
    def is_failed(self) -> bool:
        return self.state == WorkState.FAILED

    @property
    def is_done(self) -> bool:
        return self.state == WorkState.DONE
