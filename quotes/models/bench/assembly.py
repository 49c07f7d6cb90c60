"""The assembly record, as built, and the way out: final check, test, release."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q

from quotes.models.bench.fields import code, file_or_none, measured, once_key, person, said
from quotes.models.bench.job import Job
from quotes.models.bench.teardown import Instrument
from quotes.models.frozen import Frozen, FrozenQuerySet


class AssemblyEntryQuerySet(FrozenQuerySet["AssemblyEntry"]):
    def standing(self) -> AssemblyEntryQuerySet:
        """Without those that a later one corrected."""
        return self.filter(corrected_by=None)


class AssemblyEntry(Frozen):
    """One answer to one requirement of the record, by `requirement` and `place`.

    A figure as it was read and in the unit of its limit, a tick, a code, or a second person's check.
    """

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="assembly")
    requirement = models.CharField(max_length=120)
    component = code(blank=True, default="")
    operation = code(blank=True, default="")
    name = models.CharField(max_length=200)
    place = said(80)
    entered = said(200)
    entered_unit = said(20)
    value = measured()
    unit = said(60)
    low = measured()
    high = measured()
    limit_source = said(200)
    within = models.BooleanField(null=True, blank=True)
    """Whether it is inside its limits; None where it has none."""
    instrument = models.ForeignKey(Instrument, models.PROTECT, null=True, blank=True, related_name="+")
    part_number = said(64)
    batch = said(80)
    at = models.DateTimeField()
    by = person()
    corrects = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="corrected_by"
    )

    objects = AssemblyEntryQuerySet.as_manager()

    class Meta:
        ordering = ["at", "id"]

    def __str__(self) -> str:
        return f"{self.name} {self.place}: {self.entered}"


class Concession(Frozen):
    """The owner's written word that a requirement may stay empty or outside its limits."""

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="concessions")
    requirement = models.CharField(max_length=120)
    place = said(80)
    words = models.CharField(max_length=500)
    at = models.DateTimeField()
    by = person()

    objects: ClassVar[models.Manager[Concession]] = models.Manager()

    class Meta:
        ordering = ["at", "id"]
        constraints = [models.CheckConstraint(condition=~Q(words=""), name="concession_says_why")]

    def __str__(self) -> str:
        return self.words


class AssemblyRecord(Frozen):
    """The record, closed: what was built, as it was then."""

    LATER: ClassVar[frozenset[str]] = frozenset({"pdf"})

    job = models.OneToOneField(Job, models.PROTECT, related_name="record")
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    closed_at = models.DateTimeField()
    closed_by = person()
    pdf = file_or_none()

    objects: ClassVar[models.Manager[AssemblyRecord]] = models.Manager()

    class Meta:
        ordering = ["-closed_at"]

    def __str__(self) -> str:
        return f"{self.job}: assembly record"


class TestRun(Frozen):
    """Running-in or a pull on the dyno: `values` are pairs of name, figure and unit."""

    __test__ = False  # pytest would take it for a test by its name.

    key = once_key()
    job = models.ForeignKey(Job, models.PROTECT, related_name="tests")
    name = models.CharField(max_length=120)
    dyno = said(120)
    correction = said(60)
    """The standard that its power was corrected by; powers compare on one dyno and one correction only."""
    values = models.JSONField(default=list, blank=True)
    note = said(500)
    on = models.DateField()
    at = models.DateTimeField()
    by = person()

    objects: ClassVar[models.Manager[TestRun]] = models.Manager()

    class Meta:
        ordering = ["on", "id"]

    def __str__(self) -> str:
        return self.name


class Release(Frozen):
    """The engine handed over: to whom, under which seal, with its running-in card.

    `unpaid_consent` is the owner's word where it went before it was paid for.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"pdf", "card"})

    job = models.OneToOneField(Job, models.PROTECT, related_name="release")
    number = models.CharField(max_length=20, unique=True)
    seal = said(60)
    released_to = models.CharField(max_length=200)
    shown = said(200)
    """What he showed to prove who he is."""
    checks = models.JSONField(default=list)
    """The final check: pairs of what and the answer."""
    unpaid_consent = said()
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    at = models.DateTimeField()
    by = person()
    pdf = file_or_none()
    card = file_or_none()

    objects: ClassVar[models.Manager[Release]] = models.Manager()

    class Meta:
        ordering = ["-at"]
        constraints = [models.CheckConstraint(condition=~Q(released_to=""), name="release_to_somebody")]

    def __str__(self) -> str:
        return self.number
