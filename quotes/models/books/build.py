"""What happens to an accepted build before its invoice: extra work agreed, and hours spent."""

from __future__ import annotations

from typing import ClassVar

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.books.fields import sum_of_money
from quotes.models.frozen import Frozen, FrozenQuerySet


class ExtraWorkState(models.TextChoices):
    OFFERED = "offered", _("offered")
    ACCEPTED = "accepted", _("accepted")
    DECLINED = "declined", _("declined")
    WITHIN = "within", _("within the limit")
    WITHDRAWN = "withdrawn", _("withdrawn")


AGREED = (ExtraWorkState.ACCEPTED, ExtraWorkState.WITHIN)
"""Accepted, or done within what the customer let us spend without asking."""


class ExtraWorkQuerySet(FrozenQuerySet["ExtraWork"]):
    def accepted(self) -> ExtraWorkQuerySet:
        return self.filter(state=ExtraWorkState.ACCEPTED)

    def agreed(self) -> ExtraWorkQuerySet:
        return self.filter(state__in=AGREED)

    def waiting(self) -> ExtraWorkQuerySet:
        return self.filter(state=ExtraWorkState.OFFERED)


class ExtraWork(Frozen):
    """Work found after the yes, numbered within its build, priced and answered before it is done.

    `lines` are `quotes.calc.invoice.draft.DraftLine`s as JSON; a negative one takes accepted work off.
    `touches` says why it must be asked: sum, safety, life, date. `stops` are the operations that wait for the
    answer, and `components` what it is about. Old and new sums are with tax, for the whole build.
    """

    LATER: ClassVar[frozenset[str]] = frozenset(
        {"state", "answered_at", "answered_by", "answered_how", "answer_note"}
    )

    build = models.ForeignKey("Acceptance", models.PROTECT, related_name="extra_work")
    index = models.PositiveSmallIntegerField()
    words = models.CharField(max_length=300)
    risk_if_declined = models.CharField(max_length=300, blank=True, default="")
    lines = models.JSONField()
    net = sum_of_money()
    tax = sum_of_money()
    gross = sum_of_money()
    touches = models.JSONField(default=list, blank=True)
    stops = models.JSONField(default=list, blank=True)
    components = models.JSONField(default=list, blank=True)
    rider_safety = models.BooleanField(default=False)
    old_gross = models.DecimalField(max_digits=16, decimal_places=3, null=True, blank=True)
    new_gross = models.DecimalField(max_digits=16, decimal_places=3, null=True, blank=True)
    old_ready_on = models.DateField(null=True, blank=True)
    new_ready_on = models.DateField(null=True, blank=True)
    photo = models.ForeignKey("Photo", models.PROTECT, null=True, blank=True, related_name="+")
    finding = models.ForeignKey("FindingSeen", models.PROTECT, null=True, blank=True, related_name="+")
    offered_at = models.DateTimeField()
    offered_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    state = models.CharField(max_length=9, choices=ExtraWorkState.choices, default=ExtraWorkState.OFFERED)
    answered_at = models.DateTimeField(null=True, blank=True)
    answered_by = models.CharField(max_length=200, blank=True, default="")
    """Who said it on the customer's side."""
    answered_how = models.CharField(max_length=200, blank=True, default="")
    """In writing, or by telephone: the number called and who wrote it down."""
    answer_note = models.CharField(max_length=300, blank=True, default="")

    objects = ExtraWorkQuerySet.as_manager()

    class Meta:
        ordering = ["build", "index"]
        constraints = [
            models.UniqueConstraint(fields=["build", "index"], name="extra_work_index_once"),
            models.CheckConstraint(
                condition=Q(state__in=("offered", "within", "withdrawn"), answered_at=None)
                | (Q(state__in=("accepted", "declined"), answered_at__isnull=False) & ~Q(answered_by="")),
                name="extra_work_answered_by_somebody",
            ),
        ]

    @property
    def is_agreed(self) -> bool:
        return self.state in AGREED

    def __str__(self) -> str:
        return self.number

    @property
    def number(self) -> str:
        return f"{self.build.quote.number}/{self.index}"


class CalledOffQuerySet(FrozenQuerySet["CalledOff"]):
    """Refuses change and deletion in bulk."""


class CalledOff(Frozen):
    """A build that was called off after the yes: why, and who said so on what day.

    What was done until then is still invoiced; nothing more is done, ordered or promised.
    """

    build = models.OneToOneField("Acceptance", models.PROTECT, related_name="called_off")
    reason = models.CharField(max_length=300)
    said_by = models.CharField(max_length=200)
    """Who said it: the customer, or whoever spoke for the workshop."""
    on = models.DateField()
    at = models.DateTimeField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")

    objects = CalledOffQuerySet.as_manager()

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            models.CheckConstraint(condition=~Q(reason="") & ~Q(said_by=""), name="called_off_with_a_reason")
        ]

    def __str__(self) -> str:
        return f"{self.build.quote.title} called off: {self.reason}"


class WorkedHoursQuerySet(models.QuerySet["WorkedHours"]):
    def of_build(self, build_id: int) -> WorkedHoursQuerySet:
        """Hours of a build, those included that its job took before the yes."""
        return self.filter(Q(build_id=build_id) | Q(job__quote__acceptance=build_id))


class WorkedHours(models.Model):
    """Hours that one person spent on one operation, on one day; corrected until invoiced.

    Of a build, or of a job whose customer has not said yes yet.
    """

    build = models.ForeignKey(
        "Acceptance", models.PROTECT, null=True, blank=True, related_name="worked_hours"
    )
    job = models.ForeignKey("Job", models.PROTECT, null=True, blank=True, related_name="worked_hours")
    operation = models.CharField(max_length=64, blank=True, default="")
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    on = models.DateField()
    hours = models.DecimalField(
        max_digits=6, decimal_places=2, validators=[MinValueValidator(0), MaxValueValidator(24)]
    )
    note = models.CharField(max_length=200, blank=True, default="")
    entered_by = models.CharField(max_length=150)
    entered_at = models.DateTimeField()

    objects = WorkedHoursQuerySet.as_manager()

    class Meta:
        ordering = ["on", "id"]
        constraints = [
            models.CheckConstraint(condition=Q(hours__gt=0, hours__lte=24), name="worked_hours_fit_in_a_day"),
            models.CheckConstraint(
                condition=Q(build__isnull=False) | Q(job__isnull=False), name="worked_hours_on_something"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.hours} h {self.operation}"
