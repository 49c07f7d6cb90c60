"""The balances that the books begin with."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from catalogue.calc.said import say
from quotes.actions.books.opening import enter_opening
from quotes.actions.refused import Refused
from quotes.forms.books.opening import MORE, OpeningForm
from quotes.forms.books.refusing import refuse
from quotes.models import JournalEntry, JournalSource
from quotes.queries.books.bills import builds_offered, suppliers_known
from quotes.queries.books.chart import accounts_now
from quotes.queries.books.payers import payers_offered
from quotes.views.books.listed import currency_now, decimals_now, with_more_rows
from quotes.views.every_request.person import signed_in

ROWS = ("customers", "suppliers", "deposits")


@require_http_methods(["GET", "POST"])
def opening(request: HttpRequest) -> HttpResponse:
    """What stood before; kept as one entry, once for its day."""
    data = with_more_rows(request.POST, ROWS, MORE) if request.method == "POST" else None
    form = OpeningForm(accounts_now(), data, unit=currency_now(), decimals=decimals_now())
    if data is None or "more" in data or not form.is_valid():
        return _page(request, form)
    try:
        entry = enter_opening(
            on=form.day.cleaned_data["on"],
            amounts=form.balances.amounts(),
            customers=form.items(),
            suppliers=form.bills(),
            deposits=form.held(),
            by=signed_in(request),
            now=timezone.now(),
        )
    except (Refused, ValidationError) as wrong:
        _refuse(form, wrong)
        return _page(request, form)
    messages.success(request, say("The opening balances are in the books."))
    return redirect("journal-entry", entry.pk)


def _refuse(form: OpeningForm, wrong: Refused | ValidationError) -> None:
    """A balance has its own field; what is about the whole stands at the day."""
    if isinstance(wrong, ValidationError) and hasattr(wrong, "error_dict"):
        for name, said in wrong.message_dict.items():
            if name in form.balances.fields:
                form.balances.add_error(name, said[0])
            else:
                form.day.add_error("on", said[0])
    else:
        refuse(form.day, wrong, "on")


def _page(request: HttpRequest, form: OpeningForm) -> HttpResponse:
    context = {
        "form": form,
        "entered": JournalEntry.objects.filter(source=JournalSource.OPENING).order_by("on"),
        "builds": builds_offered(),
        "suppliers": suppliers_known(),
        "payers": payers_offered(),
    }
    return render(request, "quotes/books/opening.html", context)


urlpatterns = [path("books/opening/", opening, name="opening")]
