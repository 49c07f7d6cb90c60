"""Enquiries: the list, the card of one, and what becomes of it."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from catalogue.views.file_answer import shown_pdf
from catalogue.views.untouched import keeps_theirs
from quotes.actions.enquiry import drop_enquiry, quote_enquiry, say_again, update_enquiry
from quotes.actions.refused import Refused, StaleDraft
from quotes.documents.enquiry_card import enquiry_context, enquiry_pdf
from quotes.filters.enquiries import EnquiryFilter
from quotes.forms.enquiry import DetailsForm, ReasonForm
from quotes.models import Enquiry
from quotes.models.enquiry import EnquiryQuerySet
from quotes.queries.enquiry import enquiry_sheet
from quotes.tables.enquiries import EnquiryTable
from quotes.views.every_request.form_marks import version_of
from quotes.views.every_request.person import signed_in
from quotes.views.table_page import TablePage


class EnquiryList(TablePage):
    """All enquiries, newest first."""

    title = _("Enquiries")
    one = _("enquiry")
    table_class = EnquiryTable
    filterset_class = EnquiryFilter
    template_name = "quotes/enquiry_list.html"

    def rows(self) -> EnquiryQuerySet:
        return Enquiry.objects.with_state().joined()


def enquiry(request: HttpRequest, pk: int) -> HttpResponse:
    """The card of one enquiry, or what was typed into it."""
    row = _row(pk)
    if request.method != "POST":
        return _page(request, row, DetailsForm.of(row))
    form = DetailsForm.of(row, request.POST)
    if not form.is_valid():
        return _page(request, row, form, status=422)
    try:
        update_enquiry(enquiry=row, details=form.details(), expected_version=version_of(request))
    except StaleDraft as stale:
        return _page(request, row, form, stale=stale, version=stale.version, status=409)
    except Refused as refused:
        return _page(request, row, form, refused=refused, status=409)
    messages.success(request, say("{number} is kept.", number=row.number))
    return redirect("enquiry", row.pk)


def _row(pk: int) -> Enquiry:
    return get_object_or_404(Enquiry.objects.joined().with_state(), pk=pk)


def _page(
    request: HttpRequest, row: Enquiry, form: DetailsForm, *, status: int = 200, **more: Any
) -> HttpResponse:
    context = {
        **enquiry_context(enquiry_sheet(row)),
        "enquiry": row,
        "form": form,
        "drop_form": ReasonForm(),
        "booking": row.standing_booking,
        "version": row.version,
        **more,
    }
    return render(request, "quotes/enquiry.html", context, status=status)


@require_safe
def enquiry_paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The card as PDF."""
    row = _row(pk)
    return shown_pdf(enquiry_pdf(enquiry_sheet(row)), f"{row.number}.pdf")


@require_POST
def enquiry_say_again(request: HttpRequest, pk: int) -> HttpResponse:
    """Today's bands and weeks in the place of those that were said."""
    row = _row(pk)
    try:
        say_again(enquiry=row, now=timezone.now())
    except Refused as refused:
        return _page(request, row, DetailsForm.of(row), refused=refused, status=409)
    messages.success(request, say("Worked out again with today's prices and today's bench."))
    return redirect("enquiry", row.pk)


@require_POST
def enquiry_quote(request: HttpRequest, pk: int) -> HttpResponse:
    """Make a draft quote of the enquiry and go to its worksheet."""
    row = _row(pk)
    try:
        quote = quote_enquiry(enquiry=row, by=signed_in(request), now=timezone.now())
    except ValidationError as refused:
        return _page(request, row, DetailsForm.of(row), refused=" ".join(refused.messages), status=422)
    except Refused as refused:
        return _page(request, row, DetailsForm.of(row), refused=refused, status=409)
    return redirect("quote", quote.pk)


@require_POST
def enquiry_drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Close an enquiry that leads to nothing."""
    row = _row(pk)
    form = ReasonForm(request.POST)
    if not form.is_valid():
        return _page(request, row, DetailsForm.of(row), drop_form=form, status=422)
    try:
        drop_enquiry(enquiry=row, because=form.cleaned_data["because"], now=timezone.now())
    except Refused as refused:
        return _page(request, row, DetailsForm.of(row), refused=refused, status=409)
    messages.success(request, say("{number} is dropped.", number=row.number))
    return redirect("enquiry-list")


urlpatterns = [
    path("enquiries/", EnquiryList.as_view(), name="enquiry-list"),
    path("enquiries/<int:pk>/", keeps_theirs(enquiry), name="enquiry"),
    path("enquiries/<int:pk>/card.pdf", enquiry_paper, name="enquiry-pdf"),
    path("enquiries/<int:pk>/say-again/", enquiry_say_again, name="enquiry-say-again"),
    path("enquiries/<int:pk>/quote/", enquiry_quote, name="enquiry-quote"),
    path("enquiries/<int:pk>/drop/", enquiry_drop, name="enquiry-drop"),
]
