"""After the hand-over: service reported, parts that move between engines, failures, and what they teach."""

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


class ServiceReportQuerySet(FrozenQuerySet["ServiceReport"]):
    def standing(self) -> ServiceReportQuerySet:
        """Without those that a later one corrected."""
        return self.filter(corrected_by=None)


class ServiceReport(Frozen):
    """What an engine has run since its last release, as reported on a day; a running total."""

    key = once_key()
    engine = models.ForeignKey(Engine, models.PROTECT, related_name="reports")
    job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="reports")
    """The job since whose release it counts."""
    amount = models.DecimalField(max_digits=12, decimal_places=2)
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    duty = code(blank=True, default="")
    on = models.DateField()
    over_rev_pct = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    oil_used = said(120)
    filter_seen = said()
    note = said(1000)
    name = models.CharField(max_length=200)
    """Who reported it."""
    how = said(120)
    at = models.DateTimeField()
    corrects = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="corrected_by"
    )

    objects = ServiceReportQuerySet.as_manager()

    class Meta:
        ordering = ["on", "id"]
        constraints = [models.CheckConstraint(condition=Q(amount__gte=0), name="service_report_not_negative")]

    def __str__(self) -> str:
        return f"{self.amount} {self.unit} on {self.on}"


class LifedPart(models.Model):
    """A part that carries its own age from engine to engine, by serial number or mark."""

    component = code()
    type_code = code()
    serial = models.CharField(max_length=80)
    grade = said(20)
    owner = models.ForeignKey("Customer", models.PROTECT, null=True, blank=True, related_name="lifed_parts")
    ran_before = amount_of_use()
    """What it had run before it came into our books; 0: new, None: nobody knows."""
    ran_before_unit = models.CharField(max_length=4, choices=ServiceUnit.choices, blank=True, default="")
    ran_before_duty = code(blank=True, default="")
    note = said(500)
    scrapped_on = models.DateField(null=True, blank=True)

    objects: ClassVar[models.Manager[LifedPart]] = models.Manager()

    class Meta:
        ordering = ["component", "serial"]
        constraints = [
            models.UniqueConstraint(fields=["component", "type_code", "serial"], name="lifed_part_once"),
            models.CheckConstraint(
                condition=Q(ran_before=None)
                | Q(ran_before=0)
                | (Q(ran_before__gt=0) & ~Q(ran_before_unit="") & ~Q(ran_before_duty="")),
                name="lifed_part_ran_before_in_a_unit",
            ),
        ]

    def __str__(self) -> str:
        return self.serial


class PartStay(models.Model):
    """A stretch that a lifed part spent in one engine, by that engine's own service at its two ends."""

    part = models.ForeignKey(LifedPart, models.PROTECT, related_name="stays")
    engine = models.ForeignKey(Engine, models.PROTECT, related_name="part_stays")
    job = models.ForeignKey(Job, models.PROTECT, null=True, blank=True, related_name="part_stays")
    unit = models.CharField(max_length=4, choices=ServiceUnit.choices)
    from_on = models.DateField()
    from_amount = models.DecimalField(max_digits=12, decimal_places=2)
    until_on = models.DateField(null=True, blank=True)
    until_amount = amount_of_use()
    fitted_by = said(150)
    taken_out_by = said(150)
    reconditioned_on = models.DateField(null=True, blank=True)
    """The part was reconditioned after this stay, and before the next one."""
    counts_for = models.DecimalField(max_digits=5, decimal_places=4, null=True, blank=True)
    """The share of all it had run by then that counts on."""

    objects: ClassVar[models.Manager[PartStay]] = models.Manager()

    class Meta:
        ordering = ["from_on", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["part"], condition=Q(until_on=None), name="lifed_part_in_one_engine"
            ),
            models.CheckConstraint(
                condition=Q(until_amount=None) | Q(until_amount__gte=models.F("from_amount")),
                name="part_stay_does_not_run_back",
            ),
            models.CheckConstraint(
                condition=Q(until_on=None, until_amount=None)
                | Q(until_on__isnull=False, until_amount__isnull=False),
                name="part_stay_ends_with_its_service",
            ),
            models.CheckConstraint(
                condition=Q(reconditioned_on=None, counts_for=None)
                | Q(reconditioned_on__gte=models.F("until_on"), counts_for__gte=0, counts_for__lte=1),
                name="part_is_reconditioned_out_of_the_engine",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.part} in {self.engine}"


class Reminder(Frozen):
    """A reminder that was sent: for which engine, and its words."""

    engine = models.ForeignKey(Engine, models.PROTECT, related_name="reminders")
    due_on = models.DateField(null=True, blank=True)
    words = models.TextField(max_length=4000)
    sent_on = models.DateField()
    at = models.DateTimeField()
    by = person()

    objects: ClassVar[models.Manager[Reminder]] = models.Manager()

    class Meta:
        ordering = ["-sent_on", "-id"]

    def __str__(self) -> str:
        return f"{self.engine}, {self.sent_on}"


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
