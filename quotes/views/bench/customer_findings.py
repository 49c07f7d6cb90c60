"""The findings report on the customer's own page."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from quotes.actions.bench.findings_report import findings_file
from quotes.calc.bench.teardown.findings_sheet import FindingsSheet
from quotes.calc.said_days import said_day
from quotes.documents.bench.findings import findings_context
from quotes.models import FindingsReport
from quotes.models.bench.report import FindingsReportQuerySet
from quotes.queries.bench.teardown.findings import picture_of, sheet_of_report
from quotes.views.customer.link import OpenedLink, by_link
from quotes.views.every_request.stored_answer import download
from quotes.views.missing_photo import drawn_where_missing


@dataclass(frozen=True, slots=True)
class ReportShown:
    """A report in the list of the customer's page; `latest` is the one that stands."""

    number: str
    issued: str
    address: str
    latest: bool


def reports_shown(opened: OpenedLink) -> list[ReportShown]:
    """Reports of the engine of this link's quote, the last first."""
    rows = list(_rows(opened).order_by("-index"))
    return [
        ReportShown(
            number=row.number,
            issued=said_day(timezone.localdate(row.issued_at)),
            address=reverse("customer-findings", args=[opened.token, row.index]),
            latest=row is rows[0],
        )
        for row in rows
    ]


def _rows(opened: OpenedLink) -> FindingsReportQuerySet:
    return FindingsReport.objects.filter(job__quote=opened.quote).select_related("job", "pdf")


@by_link
@require_safe
def show(request: HttpRequest, opened: OpenedLink, index: int) -> HttpResponse:
    """One report, as it was issued."""
    row = _rows(opened).filter(index=index).first()
    if row is None:
        return render(request, "quotes/customer_gone.html", status=404)
    sheet = sheet_of_report(row)
    context = {**findings_context(sheet, _photos(opened, row, sheet)), "opened": opened, "report": row}
    return render(request, "quotes/bench/customer_findings.html", context)


def _photos(opened: OpenedLink, row: FindingsReport, sheet: FindingsSheet) -> dict[str, str]:
    names = {photo.sha256 for one in sheet.findings for photo in one.photos}
    return {name: reverse("customer-findings-photo", args=[opened.token, row.index, name]) for name in names}


@by_link
@require_safe
def paper(request: HttpRequest, opened: OpenedLink, index: int) -> HttpResponse:
    """The report as a PDF."""
    row = _rows(opened).filter(index=index).first()
    if row is None:
        return render(request, "quotes/customer_gone.html", status=404)
    return download(findings_file(report=row))


@by_link
@drawn_where_missing
@require_safe
def photo(request: HttpRequest, opened: OpenedLink, index: int, sha256: str) -> HttpResponse:
    """A photo of a report, and no other of the job."""
    row = _rows(opened).filter(index=index).first()
    content = picture_of(row.job, sheet_of_report(row), sha256) if row else None
    if content is None:
        return render(request, "quotes/customer_gone.html", status=404)
    return HttpResponse(content, content_type="image/jpeg")


urlpatterns = [
    path("q/<str:token>/findings/<int:index>/", show, name="customer-findings"),
    path("q/<str:token>/findings/<int:index>.pdf", paper, name="customer-findings-pdf"),
    path("q/<str:token>/findings/<int:index>/<str:sha256>.jpg", photo, name="customer-findings-photo"),
]
