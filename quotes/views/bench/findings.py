"""The findings of a job: what the customer is told, the quote worked out again, extra work proposed."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from quotes.actions.bench.findings_report import findings_file, issue_findings
from quotes.actions.bench.work_out_again import Again, Offer, offer_worked_again, work_out_again
from quotes.actions.refused import Refused, RequestFaults
from quotes.calc.bench.teardown.findings_sheet import FindingShown, FindingsSheet
from quotes.calc.sheet.name_words import inside, plain_name
from quotes.documents.bench.findings import findings_context
from quotes.forms.bench.findings import OfferForm
from quotes.forms.books.refusing import refuse
from quotes.models import FindingsReport, Job, Photo, WorkedAgain
from quotes.queries.bench.again.committed import committed_of
from quotes.queries.bench.again.worked_again import is_behind, proposal_of, proposed, since_first
from quotes.queries.bench.teardown.findings import findings_sheet, reports_of, sheet_of_report
from quotes.queries.bench.teardown.page import doubted
from quotes.queries.rights import may, may_open
from quotes.queries.sheets import request_of, sheet_of
from quotes.views.books.listed import currency_now, decimals_now
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import served


@require_safe
def findings(request: HttpRequest, pk: int) -> HttpResponse:
    """What would be reported now, the reports issued, and how the quote stands to the teardown."""
    return _page(request, _row(pk))


def _row(pk: int) -> Job:
    rows = Job.objects.joined().select_related("quote__latest", "quote__acceptance__revision")
    return get_object_or_404(rows, pk=pk)


def _page(request: HttpRequest, row: Job, **more: Any) -> HttpResponse:
    reports = reports_of(row)
    index = reports[0].index if reports else 0
    sheet = findings_sheet(row, index + 1, timezone.localdate())
    context = {
        **findings_context(sheet, _photos(row)),
        "job": row,
        "types": dict(engine_type_choices()),
        "reports": reports,
        "new_to_tell": not reports or not sheet.says_the_same(sheet_of_report(reports[0])),
        "behind": is_behind(row),
        "doubted": doubted(row),
        "since_first": _since_first(row),
        "may_work": row.left_at is None and may(request.user, "work on a job"),
        **_proposal(row),
        **more,
    }
    return render(request, "quotes/bench/findings.html", context)


def _photos(row: Job) -> dict[str, str]:
    """Addresses of the job's photos by the fingerprint of their pictures."""
    rows = Photo.objects.filter(job=row).values_list("image__sha256", "pk")
    return {sha256: reverse("photo", args=[pk]) for sha256, pk in rows}


def _since_first(row: Job) -> Any:
    quote = row.quote
    if quote is None or quote.latest is None:
        return None
    return since_first(quote, sheet_of(quote.latest).comparison, request_of(quote.latest))


def _proposal(row: Job) -> dict[str, Any]:
    """The extra work that is proposed, with the form that offers it."""
    again = proposal_of(row)
    if again is None:
        return {}
    found = proposed(again)
    first = {
        "words": _words(row)[:300],
        "risk": _risk(row)[:300],
        "new_ready_on": found.adds.new_ready_on,
    }
    return {
        "again": again,
        "proposed": found,
        "offer": OfferForm(initial=first),
        "committed": committed_of(again.build),
        "currency": currency_now(),
        "decimals": decimals_now(),
    }


def _words(row: Job) -> str:
    seen = [_named(one) for one in _sheet(row).findings if one.judged in ("stop", "companions", "renew")]
    return (
        say("Found at the teardown: {seen}", seen="; ".join(seen))
        if seen
        else say("Measured at the teardown")
    )


def _named(one: FindingShown) -> str:
    """What was seen with its part and place: by itself it says neither."""
    part = inside(plain_name(one.component)) if one.component else ""
    return ": ".join(filter(None, (", ".join(filter(None, (part, inside(one.place)))), one.seen)))


def _risk(row: Job) -> str:
    return " ".join(one.consequence for one in _sheet(row).findings if one.consequence)


def _sheet(row: Job) -> FindingsSheet:
    return findings_sheet(row, 1, timezone.localdate())


@require_POST
def again(request: HttpRequest, pk: int) -> HttpResponse:
    """Work the quote out again with what the teardown shows."""
    row = _row(pk)
    try:
        done = work_out_again(job=row, by=signed_in(request), now=timezone.now())
    except RequestFaults as wrong:
        return _page(request, row, faults=wrong.faults)
    except Refused as refused:
        return _page(request, row, refused=str(refused))
    return _told(request, row, done)


def _told(request: HttpRequest, row: Job, done: Again) -> HttpResponse:
    if not done.is_new:
        messages.info(request, say("Nothing new: all that was measured and found is in it already."))
        return redirect("findings", row.pk)
    if done.proposal is not None:
        messages.success(request, say("Worked out again. Nothing is offered to the customer yet."))
        return redirect(reverse("findings", args=[row.pk]) + "#proposed")
    messages.success(request, say("Worked out again from the teardown. It is a draft until it is issued."))
    if may_open(request.user, "quote"):
        return redirect("quote", done.quote.pk)
    return redirect("findings", row.pk)


@require_POST
def offer(request: HttpRequest, pk: int) -> HttpResponse:
    """Offer the extra work proposed, or do it within the limit."""
    made = get_object_or_404(WorkedAgain.objects.select_related("job", "build"), pk=pk)
    form = OfferForm(request.POST)
    if not form.is_valid():
        return _page(request, _row(made.job_id), offer=form)
    told = form.cleaned_data
    try:
        extra = offer_worked_again(
            again=made,
            offer=Offer(told["words"], told["risk"], told["new_ready_on"], "within" in request.POST),
            by=signed_in(request),
            now=timezone.now(),
        )
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return _page(request, _row(made.job_id), offer=form)
    return redirect("extra-work", extra.pk)


@require_POST
def issue(request: HttpRequest, pk: int) -> HttpResponse:
    """Issue the findings to the customer."""
    row = _row(pk)
    try:
        report = issue_findings(job=row, by=signed_in(request), now=timezone.now())
    except Refused as refused:
        return _page(request, row, refused=str(refused))
    messages.success(
        request, say("{number} is issued; the customer reads it on his page.", number=report.number)
    )
    return redirect("findings", pk)


@require_safe
def paper(request: HttpRequest, pk: int, index: int) -> HttpResponseBase:
    """A report on paper, as it was issued."""
    rows = FindingsReport.objects.select_related("job", "pdf")
    return served(request, findings_file(report=get_object_or_404(rows, job=pk, index=index)))


urlpatterns = [
    path("bench/<int:pk>/findings/", findings, name="findings"),
    path("bench/<int:pk>/findings/again/", again, name="work-out-again"),
    path("bench/<int:pk>/findings/issue/", issue, name="findings-issue"),
    path("bench/<int:pk>/findings/<int:index>.pdf", paper, name="findings-pdf"),
    path("bench/worked-again/<int:pk>/offer/", offer, name="worked-again-offer"),
]
