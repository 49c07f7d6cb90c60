"""Issuing a quote, its documents and the customer's links."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.said import say
from quotes.actions.files import quote_pdf_file, quote_workbook_file
from quotes.actions.issuing import issue
from quotes.actions.links import new_link, withdraw_link
from quotes.actions.refused import ClassNotTicked, Refused, SetUpMissing
from quotes.models import Link, Quote, Revision
from quotes.views.every_request.form_marks import version_of
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import download
from quotes.views.worksheet.issue_part import SHOWN_ONCE
from quotes.views.worksheet.page import open_sheet, render_sheet


@require_POST
def issue_quote(request: HttpRequest, pk: int) -> HttpResponse:
    """Freeze the next revision, with a link for the customer at the first one."""
    quote = get_object_or_404(Quote.objects.joined(), pk=pk)
    if "version" in request.POST and version_of(request) != quote.version:
        unseen = say(
            "{by} has changed this quote since you opened it. Nothing was issued: look it over first.",
            by=quote.edited_by or say("Somebody"),
        )
        return render_sheet(request, open_sheet(quote, ""), refused=unseen)
    tick = bool(request.POST.get("class_tick"))
    try:
        revision = issue(quote=quote, by=signed_in(request), now=timezone.now(), class_tick=tick)
    except ClassNotTicked as untold:
        return render_sheet(request, open_sheet(quote, ""), class_fault=str(untold))
    except SetUpMissing:
        return render_sheet(request, open_sheet(quote, ""))
    except Refused as refused:
        return render_sheet(request, open_sheet(quote, ""), refused=str(refused))
    if not Link.objects.working(timezone.now()).filter(quote=revision.quote).exists():
        _show_once(request, revision.quote)
    return redirect("quote", pk)


@require_POST
def make_link(request: HttpRequest, pk: int) -> HttpResponse:
    """A further link for the customer."""
    quote = get_object_or_404(Quote, pk=pk)
    if quote.latest_id is None:
        raise Http404("A link shows what was issued, and nothing has been.")
    _show_once(request, quote)
    return redirect("quote", pk)


def _show_once(request: HttpRequest, quote: Quote) -> None:
    made = new_link(quote=quote, by=signed_in(request), now=timezone.now())
    address = reverse("customer-quote", args=[made.token])
    request.session[f"{SHOWN_ONCE}-{quote.pk}"] = request.build_absolute_uri(address)


@require_POST
def withdraw(request: HttpRequest, pk: int, link: int) -> HttpResponse:
    """Close a link that was sent to the wrong place."""
    withdraw_link(link=get_object_or_404(Link, pk=link, quote_id=pk), now=timezone.now())
    return redirect("quote", pk)


def pdf(request: HttpRequest, pk: int, index: int) -> HttpResponse:
    return download(quote_pdf_file(revision=_asked_for(pk, index)))


def workbook(request: HttpRequest, pk: int, index: int) -> HttpResponse:
    return download(quote_workbook_file(revision=_asked_for(pk, index)))


def _asked_for(pk: int, index: int) -> Revision:
    rows = Revision.objects.select_related("quote", "pdf", "workbook")
    return get_object_or_404(rows, quote_id=pk, index=index)


urlpatterns = [
    path("quotes/<int:pk>/issue/", issue_quote, name="quote-issue"),
    path("quotes/<int:pk>/link/", make_link, name="quote-link"),
    path("quotes/<int:pk>/link/<int:link>/withdraw/", withdraw, name="quote-link-withdraw"),
    path("quotes/<int:pk>/revision/<int:index>/pdf/", pdf, name="quote-pdf"),
    path("quotes/<int:pk>/revision/<int:index>/workbook/", workbook, name="quote-workbook"),
]
