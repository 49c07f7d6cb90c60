"""Booking a week on the bench, its confirmation, and the owner's terms for it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from catalogue.views.file_answer import shown_pdf
from quotes.actions.booking import AlreadyBooked, WeekFull, agree_terms, book, cancel_booking
from quotes.actions.refused import Refused
from quotes.calc.dates.slots import Bench
from quotes.documents.booking import booking_context, booking_pdf, cancelling
from quotes.forms.enquiry import AgreedForm, ReasonForm
from quotes.forms.enquiry_booking import BookingForm
from quotes.models import Authority, Booking, Enquiry, Job, OldParts, SaidHow
from quotes.queries.bench_diary import diary
from quotes.queries.booking import sheet_of_booking, slot_deposit, standing_terms, state_of
from quotes.queries.enquiry import asked_of, said_of, weeks_today
from quotes.queries.rights import may
from quotes.views.every_request.person import signed_in


def book_enquiry(request: HttpRequest, pk: int) -> HttpResponse:
    """The booking card of an enquiry, or what was typed into it."""
    row = get_object_or_404(Enquiry.objects.joined(), pk=pk)
    if standing := row.standing_booking:
        return redirect("booking", standing.pk)
    said, bench = said_of(row), diary(timezone.localdate()).bench
    if request.method != "POST":
        return _card(request, row, BookingForm(said, bench, initial=_first(row)), bench)
    form = BookingForm(said, bench, request.POST)
    if not form.is_valid():
        return _card(request, row, form, bench, status=422)
    try:
        booking = book(enquiry=row, wish=form.wish(), by=signed_in(request), now=timezone.now())
    except AlreadyBooked as booked:
        return redirect("booking", booked.booking.pk)
    except WeekFull as full:
        form.add_error("week", ValidationError(str(full)))
        return _card(request, row, form, bench, status=422)
    except ValidationError as wrong:
        form.add_error(None, wrong)
        return _card(request, row, form, bench, status=422)
    except Refused as refused:
        return _card(request, row, form, bench, status=409, refused=refused)
    return redirect("booking", booking.pk)


def _first(row: Enquiry) -> dict[str, Any]:
    """What stands in the card before anybody has typed: nobody may spend more, nobody has agreed."""
    asked = asked_of(row)
    return {
        "delivered": asked.engine.delivered,
        "deposit": slot_deposit(asked.engine.type),
        "authority": Authority.RIDER,
        "authority_name": row.customer.name,
        "said_how": SaidHow.SIGNATURE,
        "limit_sum": Decimal(0),
        "old_parts": OldParts.KEPT,
    }


def _card(
    request: HttpRequest, row: Enquiry, form: BookingForm, bench: Bench, *, status: int = 200, **more: Any
) -> HttpResponse:
    context = {
        "enquiry": row,
        "form": form,
        "weeks": weeks_today(said_of(row), bench),
        "terms": standing_terms(),
        **more,
    }
    return render(request, "quotes/booking_new.html", context, status=status)


@require_safe
def booking(request: HttpRequest, pk: int) -> HttpResponse:
    """The confirmation, and what can still be done about it."""
    return _confirmation(request, _row(pk))


def _row(pk: int) -> Booking:
    return get_object_or_404(Booking.objects.joined(), pk=pk)


def _confirmation(request: HttpRequest, row: Booking, *, status: int = 200, **more: Any) -> HttpResponse:
    context = {
        **booking_context(sheet_of_booking(row), state_of(row)),
        "booking": row,
        "job": Job.objects.filter(booking=row).first(),
        "agreed_form": AgreedForm(initial={"on": timezone.localdate()}),
        "cancel_form": ReasonForm(),
        "cancelling": cancelling(sheet_of_booking(row), timezone.localdate()),
        "may_change": may(request.user, "acts of a booking"),
        **more,
    }
    return render(request, "quotes/booking.html", context, status=status)


@require_safe
def booking_paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The confirmation as PDF."""
    row = _row(pk)
    return shown_pdf(booking_pdf(sheet_of_booking(row), state_of(row)), f"{row.number}.pdf")


@require_POST
def booking_agree(request: HttpRequest, pk: int) -> HttpResponse:
    """Note who agreed to the terms, and when."""
    row = _row(pk)
    form = AgreedForm(request.POST)
    if form.is_valid() and form.cleaned_data["on"] > timezone.localdate():
        form.add_error("on", ValidationError(say("That day has not come yet: today or earlier.")))
    if not form.is_valid():
        return _confirmation(request, row, agreed_form=form, status=422)
    agree_terms(booking=row, agreed_by=form.cleaned_data["agreed_by"], on=form.cleaned_data["on"])
    return redirect("booking", row.pk)


@require_POST
def booking_cancel(request: HttpRequest, pk: int) -> HttpResponse:
    """Give the week back."""
    row = _row(pk)
    form = ReasonForm(request.POST)
    if not form.is_valid():
        return _confirmation(request, row, cancel_form=form, status=422)
    because = form.cleaned_data["because"]
    cancel_booking(booking=row, because=because, by=signed_in(request), now=timezone.now())
    messages.success(request, say("{number} is cancelled; its week is free again.", number=row.number))
    return redirect("booking", row.pk)


urlpatterns = [
    path("enquiries/<int:pk>/book/", book_enquiry, name="enquiry-book"),
    path("enquiries/bookings/<int:pk>/", booking, name="booking"),
    path("enquiries/bookings/<int:pk>/booking.pdf", booking_paper, name="booking-pdf"),
    path("enquiries/bookings/<int:pk>/agree/", booking_agree, name="booking-agree"),
    path("enquiries/bookings/<int:pk>/cancel/", booking_cancel, name="booking-cancel"),
]
