"""Closing the months of the books, and opening one again."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from quotes.actions.books.months import lock_month, open_month
from quotes.actions.refused import Refused
from quotes.calc.said_days import said_month
from quotes.forms.books.months import OpenAgain, WhichMonth
from quotes.queries.books.months import months
from quotes.views.every_request.person import signed_in


@require_safe
def month_list(request: HttpRequest) -> HttpResponse:
    """Every month with what was written in it."""
    return _page(request, OpenAgain())


def _page(request: HttpRequest, form: OpenAgain, faults: list[str] | None = None) -> HttpResponse:
    every = months(timezone.localdate())
    context = {
        "months": every,
        "closed": [month for month in every if month.lock],
        "open": form,
        "faults": faults or [],
    }
    return render(request, "quotes/books/months.html", context)


@require_POST
def month_close(request: HttpRequest) -> HttpResponse:
    """Nothing more is dated into this month."""
    form = WhichMonth(request.POST)
    if not form.is_valid():
        return _page(request, OpenAgain(), [str(fault) for fault in form.errors["month"]])
    month = form.cleaned_data["month"]
    try:
        lock_month(month=month, by=signed_in(request), now=timezone.now())
    except Refused as refused:
        return _page(request, OpenAgain(), [str(refused)])
    messages.success(request, say("{month} is closed.", month=said_month(month)))
    return redirect("months")


@require_POST
def month_open(request: HttpRequest) -> HttpResponse:
    """The owner opens a month again and says why."""
    form = OpenAgain(request.POST)
    if not form.is_valid():
        return _page(request, form)
    month = form.cleaned_data["month"]
    try:
        open_month(
            month=month, because=form.cleaned_data["because"], by=signed_in(request), now=timezone.now()
        )
    except Refused as refused:
        form.add_error("month", str(refused))
        return _page(request, form)
    messages.success(request, say("{month} is open again.", month=said_month(month)))
    return redirect("months")


urlpatterns = [
    path("books/months/", month_list, name="months"),
    path("books/months/close/", month_close, name="month-close"),
    path("books/months/open/", month_open, name="month-open"),
]
