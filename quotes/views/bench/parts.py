"""The pick list of a build: what is here, ordered and to order, with own parts and the shelf."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.bench.cores import CoreBrought, bring_own_part
from quotes.actions.bench.shelf import from_shelf
from quotes.actions.refused import Refused
from quotes.calc.bench.parts.needs import together
from quotes.forms.bench.parts import OwnPartForm, ShelfForm, with_choices
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.models import Acceptance
from quotes.queries.bench.parts.orders import differences, kit_words
from quotes.queries.bench.parts.wanted import BuildParts, build_parts, with_sheet
from quotes.queries.bench.ready import outlook_of, promised_and_now
from quotes.queries.books.deposits import deposit_short
from quotes.views.books.listed import currency_now, decimals_now
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in


def pick_list(request: HttpRequest, pk: int) -> HttpResponse:
    """Every article of the build; a post takes in an own part, or takes from the shelf."""
    build = get_object_or_404(with_sheet(Acceptance.objects.all()), pk=pk)
    on = timezone.localdate()
    parts = build_parts(build, on)
    if parts is None:
        raise Http404(say("The catalogue has no such engine type any more."))
    what = request.POST.get("what", "")
    own, shelf = _forms(request, parts, what)
    done = _keep(request, parts, own, shelf, what) if request.method == "POST" else None
    if done:
        messages.success(request, done)
        return redirect("pick-list", pk)
    found = differences(parts)
    context = {
        **strip(parts.build),
        "parts": parts,
        "kit": kit_words(parts),
        "outlook": outlook_of(parts, on),
        "own_form": own,
        "shelf_form": shelf,
        "differences": found,
        "less": together(found),
        "key": fresh_key(),
        "today": on,
        "deposit_short": deposit_short(parts.build) if not parts.build.done_at else 0,
        "called_off": getattr(parts.build, "called_off", None),
        "orderable": not parts.build.is_called_off and any(need.orderable for need in parts.needs),
    }
    context["promise"] = promised_and_now(context["outlook"])
    return render(request, "quotes/bench/pick_list.html", context)


def strip(build: Acceptance) -> dict[str, Any]:
    """What the strip at the head of a build's page shows."""
    return {
        "build": build,
        "job": getattr(build.quote, "job", None),
        "currency": currency_now(),
        "decimals": decimals_now(),
    }


def _forms(request: HttpRequest, parts: BuildParts, what: str) -> tuple[Any, Any]:
    today = {"received_on": timezone.localdate(), "on": timezone.localdate()}
    own = OwnPartForm(request.POST if what == "own" else None, prefix="own", initial=today)
    shelf = ShelfForm(request.POST if what == "shelf" else None, prefix="shelf", initial=today)
    names = [(one.code, one.name) for one in parts.catalogue.components.values()]
    return with_choices(own, {"component": names}), with_choices(shelf, {"component": names})


def _keep(request: HttpRequest, parts: BuildParts, own: Any, shelf: Any, what: str) -> str:
    """What was kept, in words; empty where nothing was, with the fault at its field."""
    form = own if what == "own" else shelf
    if not form.is_valid():
        return ""
    told, by, now = form.cleaned_data, signed_in(request), timezone.now()
    try:
        if what == "own":
            brought = CoreBrought(**{**told, "fit_to_use": told["fit_to_use"] == "yes"})
            bring_own_part(build=parts.build, brought=brought, key=card_key(request), by=by, now=now)
            return say(
                "{description} is kept: fitted, not charged, without our warranty.",
                description=brought.description,
            )
        from_shelf(parts=parts, by=by, now=now, **told)
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return ""
    return say("Kept: the build bears what it took from the shelf.")


urlpatterns = [path("bench/builds/<int:pk>/parts/", pick_list, name="pick-list")]
