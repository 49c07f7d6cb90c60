"""Calling a build off after the yes: what it means is shown first, and nothing is paid by it."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.books.calling_off import call_off
from quotes.actions.refused import Refused
from quotes.forms.books.build import CallOffForm
from quotes.forms.books.refusing import refuse
from quotes.forms.figures import as_of
from quotes.queries.books.build import build_account
from quotes.views.books.build_page import the_build
from quotes.views.every_request.person import signed_in


def build_call_off(request: HttpRequest, pk: int) -> HttpResponse:
    """Ask why, show what follows, and keep it."""
    build, on = the_build(pk), timezone.localdate()
    form = CallOffForm(
        request.POST if request.method == "POST" else None, initial={"said_by": build.name, "on": on}
    )
    as_of(form, on)
    context = {"build": build, "account": build_account(build, on), "form": form}
    if not form.is_valid():
        return render(request, "quotes/books/call_off.html", context)
    try:
        call_off(build=build, by=signed_in(request), now=timezone.now(), **form.cleaned_data)
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return render(request, "quotes/books/call_off.html", context)
    messages.success(
        request, say("{title} is called off. What was done so far can be invoiced.", title=build.quote.title)
    )
    return redirect("build-money", pk)


urlpatterns = [path("invoices/builds/<int:pk>/call-off/", build_call_off, name="build-call-off")]
