"""A job: one engine's visit to the workshop, from intake to hand-over, step by step."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.bench.fields import amount_of_use, code, file_or_none, once_key, person, said
from quotes.models.booking import SaidHow
from quotes.models.engine import Delivered, ServiceUnit
from quotes.models.frozen import Frozen, FrozenQuerySet


class ServiceKnown(models.TextChoices):
    METER = "meter", _("read from a meter")
    LOGBOOK = "logbook", _("from a logbook")
    SAID = "said", _("said by the customer")
    GUESS = "guess", _("a guess")
    UNKNOWN = "unknown", _("not known")


class JobQuerySet(models.QuerySet["Job"]):
    def in_the_shop(self) -> JobQuerySet:
        """Received, and neither released nor sent back."""
        return self.filter(left_at=None)

    def joined(self) -> JobQuerySet:
        return self.select_related("engine", "customer", "quote__acceptance", "booking")


class Job(models.Model):
    """`quote` is the quote that its work is offered under; a build is its acceptance.

    `marks` are pairs of where and what (engine number, each case half); `came_with` what was handed over.
    `step` is the last of its steps that moved it on; `left_at` when the engine left the workshop.
    """

    key = once_key()
    number = models.CharField(max_length=20, unique=True)
    engine = models.ForeignKey("Engine", models.PROTECT, related_name="jobs")
    customer = models.ForeignKey("Customer", models.PROTECT, related_name="jobs")
    quote = models.OneToOneField("Quote", models.PROTECT, null=True, blank=True, related_name="job")
    booking = models.OneToOneField("Booking", models.PROTECT, null=True, blank=True, related_name="job")
    received_at = models.DateTimeField(db_index=True)
    received_by = person()
    brought_by = models.CharField(max_length=200)
    right_to_hand_over = said(200)
    delivered = models.CharField(max_length=10, choices=Delivered.choices, default=Delivered.LOOSE)
    shelf = said(40)
    tag = said(40)
    marks = models.JSONField(default=list, blank=True)
    came_with = models.JSONField(default=list, blank=True)
    missing = said(500)
    oil_seen = said()
    symptoms = said(1000)
    duty = code(blank=True, default="")
    use_note = said(500)
    service_amount = amount_of_use()
    service_unit = models.CharField(max_length=4, choices=ServiceUnit.choices, blank=True, default="")
    service_known = models.CharField(max_length=8, choices=ServiceKnown.choices, default=ServiceKnown.UNKNOWN)
    step = models.CharField(max_length=20, default="received", db_index=True)
    hold_because = said()
    left_at = models.DateTimeField(null=True, blank=True, db_index=True)
    version = models.PositiveIntegerField(default=1)

    objects = JobQuerySet.as_manager()

    class Meta:
        ordering = ["-received_at", "-id"]

    def __str__(self) -> str:
        return self.number


class Step(models.TextChoices):
    """What happens to a job, in the order in which it usually does."""

    RECEIVED = "received", _("received")
    LEAVE_GIVEN = "leave_given", _("leave to strip given")
    STRIPPED = "stripped", _("stripped and measured")
    FINDINGS = "findings", _("findings issued")
    ASSEMBLING = "assembling", _("assembling")
    TESTING = "testing", _("testing")
    READY = "ready", _("ready")
    RELEASED = "released", _("released")
    SENT_BACK = "sent_back", _("sent back as it was agreed")
    ON_HOLD = "on_hold", _("on hold")
    GOES_ON = "goes_on", _("goes on")


class JobStepQuerySet(FrozenQuerySet["JobStep"]):
    """Refuses change and deletion in bulk."""


class JobStep(Frozen):
    """One step of a job: when, by whom, and what was said with it."""

    job = models.ForeignKey(Job, models.PROTECT, related_name="steps")
    step = models.CharField(max_length=20, choices=Step.choices)
    at = models.DateTimeField()
    by = person()
    note = said(500)

    objects = JobStepQuerySet.as_manager()

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["job", "step"],
                condition=~Q(step__in=("on_hold", "goes_on", "assembling", "testing")),
                name="job_step_once",
            )
        ]

    def __str__(self) -> str:
        return self.get_step_display()


class IfNot(models.TextChoices):
    REASSEMBLED = "reassembled", _("put back together, at the price named")
    IN_BOXES = "in_boxes", _("returned in boxes")
    SCRAPPED = "scrapped", _("scrapped")


class TeardownLeaveQuerySet(FrozenQuerySet["TeardownLeave"]):
    """Refuses change and deletion in bulk."""


class TeardownLeave(Frozen):
    """The customer's leave to strip, with the price of it and of putting it back, before anything is undone.

    Sums are with tax, in the workshop's currency. `sheet` is what was agreed to, as it was shown.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"pdf"})

    job = models.OneToOneField(Job, models.PROTECT, related_name="leave")
    price = models.DecimalField(max_digits=12, decimal_places=2)
    put_back_price = models.DecimalField(max_digits=12, decimal_places=2)
    deposit = models.DecimalField(max_digits=12, decimal_places=2)
    credited_if_ahead = models.BooleanField(default=True)
    if_not = models.CharField(max_length=12, choices=IfNot.choices)
    name = models.CharField(max_length=200)
    right = said(200)
    how = models.CharField(max_length=10, choices=SaidHow.choices)
    telephone = said(40)
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    given_at = models.DateTimeField()
    written_by = person()
    pdf = file_or_none()

    objects = TeardownLeaveQuerySet.as_manager()

    class Meta:
        ordering = ["given_at"]
        constraints = [
            models.CheckConstraint(
                condition=Q(price__gte=0, put_back_price__gte=0, deposit__gte=0),
                name="teardown_leave_sums_not_negative",
            ),
            models.CheckConstraint(condition=~Q(name=""), name="teardown_leave_given_by_somebody"),
        ]

    def __str__(self) -> str:
        return f"{self.job}: leave to strip by {self.name}"


class PhotoAbout(models.TextChoices):
    INTAKE = "intake", _("as it came in")
    FINDING = "finding", _("a finding")
    EXTRA_WORK = "extra_work", _("extra work")
    MACHINE_WORK = "machine_work", _("machine work")
    ASSEMBLY = "assembly", _("assembly")


class PhotoQuerySet(FrozenQuerySet["Photo"]):
    def of(self, about: str) -> PhotoQuerySet:
        return self.filter(about=about)


class Photo(Frozen):
    """A picture, scaled down, turned upright and without what a camera writes into it."""

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="photos")
    about = models.CharField(max_length=12, choices=PhotoAbout.choices)
    finding = models.ForeignKey("FindingSeen", models.PROTECT, null=True, blank=True, related_name="photos")
    place = said(80)
    words = said()
    image = models.OneToOneField("StoredFile", models.PROTECT, related_name="+")
    small = models.OneToOneField("StoredFile", models.PROTECT, related_name="+")
    added_at = models.DateTimeField()
    by = person()

    objects = PhotoQuerySet.as_manager()

    class Meta:
        ordering = ["added_at", "id"]

    def __str__(self) -> str:
        return self.words or self.get_about_display()
