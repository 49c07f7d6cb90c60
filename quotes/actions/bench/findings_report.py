"""Issuing the findings of a job to its customer, kept as they were told; a reissue is a paper of its own."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from quotes.actions.bench.jobs import locked_job, move
from quotes.actions.bench.papers import kept_pdf
from quotes.actions.bench.refused import NothingFound, NotInTheShop, NotStripped
from quotes.actions.saving import save_checked
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.bench.teardown.findings_sheet import FindingsSheet
from quotes.models import FindingsReport, Job, Step, StoredFile
from quotes.queries.bench.teardown.findings import findings_sheet, pictures_of, sheet_of_report

BEFORE_IT_IS_STRIPPED = (Step.RECEIVED, Step.LEAVE_GIVEN)


@transaction.atomic
def issue_findings(*, job: Job, by: User, now: datetime) -> FindingsReport:
    """Freeze what was measured and found as the job's next report, and make the step.

    Pressed twice, or with nothing else found since, it gives the last report. NotInTheShop, NotStripped, or
    NothingFound where there is neither a reading nor a finding.
    """
    row = locked_job(job)
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    if row.step in BEFORE_IT_IS_STRIPPED:
        raise NotStripped(row.number)
    last = FindingsReport.objects.filter(job=row).last()
    index = last.index + 1 if last else 1
    sheet = findings_sheet(Job.objects.joined().get(pk=row.pk), index, timezone.localdate(now))
    if last is not None and sheet.says_the_same(sheet_of_report(last)):
        return last
    if not sheet.findings and not sheet.readings:
        raise NothingFound(row.number)
    report = save_checked(
        FindingsReport(
            job=row,
            index=index,
            sheet=sheet.model_dump(mode="json"),
            sheet_sha256=fingerprint(sheet),
            issued_at=now,
            issued_by=by,
        )
    )
    move(job=job, step=Step.FINDINGS, by=by, now=now, note=report.number)
    return report


def findings_file(*, report: FindingsReport) -> StoredFile:
    """The stored paper of a report, drawn now where that has not been done yet."""
    sheet = sheet_of_report(report)
    name = f"{sheet.number.replace('/', '-')}-findings.pdf"
    return kept_pdf(report, name, lambda: _drawn(report, sheet))


def _drawn(report: FindingsReport, sheet: FindingsSheet) -> bytes:
    from quotes.documents.bench.findings import findings_pdf  # takes a second to import

    return findings_pdf(sheet, pictures_of(report.job, sheet))
