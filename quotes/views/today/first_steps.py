"""Leads the owner of an empty workshop to the first quote."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.actions.load import load_rows
from catalogue.actions.refused import Refused
from catalogue.calc.convert import converted
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.said import say
from catalogue.imports.read import read_catalogue
from quotes.calc.first_steps import FirstStep, next_step
from quotes.forms.first_steps import PriceListForm
from quotes.models import Workshop
from quotes.queries.first_steps import steps_to_go
from quotes.queries.sample import is_empty


def panel(request: HttpRequest) -> dict[str, Any]:
    """What the day sheet shows of the first steps; nothing where none is left."""
    steps = steps_to_go()
    return _told(steps, _form(request)) if steps else {}


@require_POST
def price_list(request: HttpRequest) -> HttpResponse:
    """Loads the catalogue that ships, in the workshop's currency."""
    form = _form(request)
    if not form.is_valid():
        told = _told(steps_to_go(), form) | {"on": timezone.localdate()}
        return render(request, "quotes/home/first_steps_page.html", told)
    assert isinstance(request.user, User)
    rows = converted(_shipped(), Workshop.objects.get_or_default().currency, form.rate_given())
    try:
        load_rows(rows=rows, now=timezone.now(), by=request.user)
    except Refused as refused:
        messages.error(request, say("Nothing was loaded: {why}", why=refused))
        return redirect("home")
    messages.success(
        request, say("The price list is loaded. Every figure in the catalogue is yours to change.")
    )
    return redirect("home")


def _told(steps: tuple[FirstStep, ...], form: PriceListForm) -> dict[str, Any]:
    done = sum(step.done for step in steps)
    return {
        "steps": steps,
        "next_step": next_step(steps),
        "steps_done": done,
        "price_list": form,
        "may_load_sample": is_empty(),
    }


def _form(request: HttpRequest) -> PriceListForm:
    return PriceListForm(
        _shipped().currency,
        Workshop.objects.get_or_default().currency,
        request.POST if request.method == "POST" else None,
    )


@cache
def _shipped() -> CatalogueRows:
    """The catalogue that ships, read once."""
    return read_catalogue(Path(settings.BASE_DIR) / "fixtures" / "catalogue")


urlpatterns = [path("first-steps/price-list/", price_list, name="first-price-list")]
