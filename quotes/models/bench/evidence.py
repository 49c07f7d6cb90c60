"""Failures after the hand-over, and how long sets of a component lasted: what the shop learns lives from."""

from __future__ import annotations

from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.bench.fields import amount_of_use, code, once_key, person, said
from quotes.models.bench.job import Job
from quotes.models.engine import Engine, ServiceUnit
from quotes.models.frozen import Frozen, FrozenQuerySet


class WhoPays(models.TextChoices):
    WORKMANSHIP = "workmanship", _("our workmanship")
    PART = "part", _("the part, by its maker's warranty")
    MISUSE = "misuse", _("use outside what was agreed")
    LIFE = "life", _("life used up")
    UNKNOWN = "unknown", _("not known")


class Outcome(models.TextChoices):
    FAILED = "failed", _("failed")
    SOUND = "sound", _("still sound")
    PAST_LIMIT = "past_limit", _("found past its limit")


class FailureReport(Frozen):
    """A comeback or a failure: what happened, what the evidence says, and who pays which share.

    `job` is the job whose work it follows; `comeback_job` the one in which it was looked at.
    """

    key = once_key()
    engine = models.ForeignKey(Engine, models.PROTECT, related_name="failures")
    job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="failures")
    comeback_job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="comes_from")
    component = code()
    place = said(80)
    words = models.CharField(max_length=1000)
    outcome = models.CharField(max_length=10, choices=Outcome.choices)
    amount = amount_of_use()
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices, blank=True, default="")
    opened_elsewhere = models.BooleanField(default=False)
    seal_whole = models.BooleanField(null=True, blank=True)
    evidence = said(1000)
    who_pays = models.CharField(max_length=12, choices=WhoPays.choices)
    shop_share_pct = models.DecimalField(max_digits=6, decimal_places=2)
    settlement = said(500)
    on = models.DateField()
    at = models.DateTimeField()
    by = person()

    objects: ClassVar[models.Manager[FailureReport]] = models.Manager()

    class Meta:
        ordering = ["-on", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(shop_share_pct__gte=0, shop_share_pct__lte=100),
                name="failure_share_is_a_share",
            )
        ]

    def __str__(self) -> str:
        return self.words


class EvidenceQuerySet(FrozenQuerySet["Evidence"]):
    def standing(self) -> EvidenceQuerySet:
        return self.filter(withdrawn_at=None)


class Evidence(Frozen):
    """How long one set of a component lasted or had lasted, from a teardown or a failure.

    Amounts are service since it was new: `entry` when it came under our eyes, `exit` when seen last, and
    `seen_good_at` the last time it was within limits, where it was found past them. Of a teardown of earlier
    years `engine_name` says which engine it was, `source` where it is written down, `by` who entered it.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"withdrawn_at", "withdrawn_by", "withdrawn_because"})

    key = models.UUIDField(unique=True, null=True, blank=True, editable=False)
    job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="evidence")
    failure = models.OneToOneField(
        FailureReport, models.PROTECT, null=True, blank=True, related_name="learned"
    )
    type_code = code()
    component = code()
    grade = said(20)
    duty = code()
    tier = code()
    outcome = models.CharField(max_length=10, choices=Outcome.choices)
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    entry = models.DecimalField(max_digits=12, decimal_places=2)
    exit = models.DecimalField(max_digits=12, decimal_places=2)
    seen_good_at = amount_of_use()
    ran = models.FloatField(null=True, blank=True)
    """`exit` as reference service, by the stretches really run; None: by `duty` and `tier` alone."""
    ran_at_entry = models.FloatField(null=True, blank=True)
    on = models.DateField()
    engine_name = said(120)
    source = said(300)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+")
    at = models.DateTimeField(null=True, blank=True)
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    withdrawn_by = said(150)
    withdrawn_because = said()

    objects = EvidenceQuerySet.as_manager()

    class Meta:
        ordering = ["on", "id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(entry__gte=0, exit__gte=models.F("entry")), name="evidence_ages_in_order"
            ),
            models.UniqueConstraint(
                fields=["job", "component"], condition=Q(failure=None), name="evidence_once_a_job"
            ),
            models.CheckConstraint(
                condition=~Q(job=None, failure=None) | (Q(by__isnull=False) & ~Q(engine_name="")),
                name="evidence_says_whence",
            ),
            models.CheckConstraint(
                condition=Q(withdrawn_at=None) | ~Q(withdrawn_because=""), name="evidence_withdrawn_says_why"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.component}: {self.get_outcome_display()} at {self.exit} {self.unit}"
