"""What the teardown shows: readings with whose limit they were held against, and findings."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.bench.fields import amount_of_use, code, measured, once_key, person, said
from quotes.models.bench.job import Job
from quotes.models.engine import ServiceUnit
from quotes.models.frozen import Frozen, FrozenQuerySet


class Instrument(models.Model):
    """A measuring instrument of the workshop, with the day it was last checked."""

    name = models.CharField(max_length=120, unique=True)
    unit = said(20)
    """What it reads in: mm, thou, %, bar."""
    checked_on = models.DateField(null=True, blank=True)
    check_due_on = models.DateField(null=True, blank=True)
    note = said()
    out_of_use = models.BooleanField(default=False)

    objects: ClassVar[models.Manager[Instrument]] = models.Manager()

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class ManualLimitQuerySet(FrozenQuerySet["ManualLimit"]):
    def standing(self) -> ManualLimitQuerySet:
        return self.filter(until=None)


class ManualLimit(Frozen):
    """A figure of the maker's manual, as the workshop entered it; it stands before the shipped default.

    `limit_code` is the limit's code in the catalogue. Values in the catalogue's unit of it.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"until", "until_by"})

    type_code = code()
    limit_code = code()
    standard_low = measured()
    standard_high = measured()
    limit = models.DecimalField(max_digits=16, decimal_places=6)
    watch = measured()
    manual = models.CharField(max_length=200)
    page = said(40)
    entered_at = models.DateTimeField()
    entered_by = person()
    until = models.DateTimeField(null=True, blank=True)
    until_by = said(150)

    objects = ManualLimitQuerySet.as_manager()

    class Meta:
        ordering = ["type_code", "limit_code", "-entered_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["type_code", "limit_code"],
                condition=Q(until=None),
                name="manual_limit_stands_once",
            ),
            models.CheckConstraint(condition=~Q(manual=""), name="manual_limit_names_its_manual"),
        ]

    def __str__(self) -> str:
        return f"{self.limit_code} of {self.type_code}"


class ReadWhen(models.TextChoices):
    AS_RECEIVED = "as_received", _("as received")
    STRIPPED = "stripped", _("at the teardown")
    MACHINED = "machined", _("back from machine work")


class Verdict(models.TextChoices):
    WITHIN = "within", _("within limits")
    WATCH = "watch", _("near its limit")
    PAST = "past", _("past its limit")
    NO_LIMIT = "no_limit", _("no limit known")


class MeasuredQuerySet(FrozenQuerySet["Measured"]):
    def standing(self) -> MeasuredQuerySet:
        """Without those that a later one corrected."""
        return self.filter(corrected_by=None)


class Measured(Frozen):
    """One reading: as it stood on the instrument, and once in the unit of its limit.

    `quantity` is the limit's code in the catalogue, or empty for one that has none, named by `name`.
    The limits it was held against are kept with it, and whose they were.
    """

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="readings")
    when = models.CharField(max_length=12, choices=ReadWhen.choices, default=ReadWhen.STRIPPED)
    component = code()
    quantity = code(blank=True, default="")
    name = models.CharField(max_length=200)
    place = said(80)
    entered = models.CharField(max_length=24)
    entered_unit = models.CharField(max_length=20)
    value = models.DecimalField(max_digits=16, decimal_places=6)
    unit = models.CharField(max_length=60)
    instrument = models.ForeignKey(Instrument, models.PROTECT, null=True, blank=True, related_name="+")
    standard_low = measured()
    standard_high = measured()
    limit = measured()
    watch = measured()
    bad_when = said(10)
    limit_source = said(200)
    verdict = models.CharField(max_length=10, choices=Verdict.choices)
    note = said()
    measured_at = models.DateTimeField()
    by = person()
    corrects = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="corrected_by"
    )

    objects = MeasuredQuerySet.as_manager()

    class Meta:
        ordering = ["measured_at", "id"]

    def __str__(self) -> str:
        return f"{self.name} {self.place}: {self.entered} {self.entered_unit}"


class Judged(models.TextChoices):
    SERVICEABLE = "serviceable", _("serviceable")
    UNTIL = "until", _("serviceable until")
    RENEW = "renew", _("renew now")
    COMPANIONS = "companions", _("renew, and look at its companions")
    STOP = "stop", _("stop: talk to the customer")


class FindingSeenQuerySet(FrozenQuerySet["FindingSeen"]):
    def standing(self) -> FindingSeenQuerySet:
        return self.filter(withdrawn_at=None)


class FindingSeen(Frozen):
    """What was seen: a finding of the catalogue by `finding_code`, or in the builder's own words.

    `place` says which cylinder, valve or gear; `component` which one where the finding leaves it open.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"withdrawn_at", "withdrawn_by", "withdrawn_because"})

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="findings")
    finding_code = code(blank=True, default="")
    component = code(blank=True, default="")
    place = said(80)
    words = said(500)
    cause = said(500)
    consequence = said(500)
    judged = models.CharField(max_length=12, choices=Judged.choices)
    until_amount = amount_of_use()
    until_unit = models.CharField(max_length=4, choices=ServiceUnit.choices, blank=True, default="")
    pct_over = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    seen_at = models.DateTimeField()
    by = person()
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    withdrawn_by = said(150)
    withdrawn_because = said()

    objects = FindingSeenQuerySet.as_manager()

    class Meta:
        ordering = ["seen_at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=~Q(finding_code="") | ~Q(words=""), name="finding_seen_says_something"
            )
        ]

    def __str__(self) -> str:
        return self.words or self.finding_code
