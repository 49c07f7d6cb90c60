"""What comes of a teardown: the findings report for the customer, and the build worked out again by it."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q

from quotes.models.bench.fields import file_or_none, person
from quotes.models.bench.job import Job
from quotes.models.frozen import Frozen, FrozenQuerySet


class FindingsReportQuerySet(FrozenQuerySet["FindingsReport"]):
    """Refuses change and deletion in bulk."""


class FindingsReport(Frozen):
    """The findings of a job as the customer was told them; one more where they changed since.

    `sheet` is `quotes.calc.bench.teardown.findings_sheet.FindingsSheet` as JSON.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"pdf"})

    job = models.ForeignKey(Job, models.PROTECT, related_name="findings_reports")
    index = models.PositiveSmallIntegerField()
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    issued_at = models.DateTimeField()
    issued_by = person()
    pdf = file_or_none()

    objects = FindingsReportQuerySet.as_manager()

    class Meta:
        ordering = ["job", "index"]
        constraints = [
            models.UniqueConstraint(fields=["job", "index"], name="findings_report_index_once"),
            models.CheckConstraint(condition=Q(index__gte=1), name="findings_report_counts_from_one"),
        ]

    def __str__(self) -> str:
        return self.number

    @property
    def number(self) -> str:
        return f"{self.job.number}/F{self.index}"


class WorkedAgainQuerySet(FrozenQuerySet["WorkedAgain"]):
    """Refuses change and deletion in bulk."""


class WorkedAgain(Frozen):
    """An accepted build worked out again with what the teardown showed; proposed to us, offered to nobody.

    `request` is `quotes.calc.ask.request.Request` as JSON; `option` a `quotes.calc.bench.again.adds.Working`:
    the option as it stood agreed and as it was worked out again, both on one day.
    `extra_work` is the offer that was made of it, once somebody has made one.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"extra_work"})

    job = models.ForeignKey(Job, models.PROTECT, related_name="worked_again")
    build = models.ForeignKey("Acceptance", models.PROTECT, related_name="worked_again")
    request = models.JSONField()
    option = models.JSONField()
    made_at = models.DateTimeField()
    by = person()
    extra_work = models.OneToOneField(
        "ExtraWork", models.PROTECT, null=True, blank=True, related_name="worked_again"
    )

    objects = WorkedAgainQuerySet.as_manager()

    class Meta:
        ordering = ["made_at", "id"]

    def __str__(self) -> str:
        return f"{self.build.quote} worked out again"
