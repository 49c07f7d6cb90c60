"""Sample data: a press that loads it into an empty workshop, and a page from which it is taken out."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.convert import converted
from catalogue.calc.said import say
from catalogue.imports.read import read_catalogue
from quotes.actions.refused import Refused
from quotes.actions.sample import load_sample, remove_sample
from quotes.calc.demo.workshop import STYLES
from quotes.imports.demo.file import read_demo
from quotes.queries.sample import is_loaded

QUOTES, CALLS = 5, 2
"""So many of the demo's: each is worked out anew, and somebody waits for it."""


@require_POST
def load(request: HttpRequest) -> HttpResponse:
    """Fills the workshop, where it is empty."""
    assert isinstance(request.user, User)
    folder, style = Path(settings.BASE_DIR) / "fixtures", STYLES[0]
    demo, shipped = read_demo(folder / "demo", style), read_catalogue(folder / "catalogue")
    demo = demo.model_copy(update={"quotes": demo.quotes[:QUOTES], "enquiries": demo.enquiries[:CALLS]})
    rows = converted(shipped, demo.catalogue.currency, demo.catalogue.rate or Decimal(1))
    try:
        load_sample(demo=demo, style=style, catalogue=rows, by=request.user, now=timezone.now())
    except Refused as refused:
        messages.error(request, str(refused))
        return redirect("home")
    messages.success(request, say("The sample data is loaded. Look around: nothing here can go wrong."))
    return redirect("home")


def remove(request: HttpRequest) -> HttpResponse:
    """Says what goes; a post takes it out."""
    if request.method != "POST":
        return render(request, "quotes/sample_remove.html", {"loaded": is_loaded()})
    try:
        remove_sample()
    except Refused as refused:
        messages.error(request, str(refused))
        return redirect("home")
    messages.success(
        request, say("The sample data is gone. Settings and price list are as you had made them.")
    )
    return redirect("home")


urlpatterns = [
    path("first-steps/sample/", load, name="sample-load"),
    path("first-steps/sample/remove/", remove, name="sample-remove"),
]
