"""Stops expected and seen; and the factor on every risk, which the owner sets, signed and dated."""

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
from quotes.actions.bench.outcomes import set_shop_factor, take_back_factor
from quotes.actions.refused import Refused
from quotes.calc.bench.said import exact
from quotes.calc.life.calibration import (
    CONFIDENCE,
    LEAST_SERVICES,
    LEAST_STOPS,
    PRIOR_STOPS,
)
from quotes.forms.bench.outcomes import BecauseForm, FactorForm, FactorReasonForm
from quotes.forms.books.refusing import refuse
from quotes.models import ServiceOutcome, ShopFactorChange
from quotes.queries.bench.ages.calibration import Calibration, calibration
from quotes.queries.bench.ages.factor_effect import effects_of_factor
from quotes.queries.bench.ages.outcomes import component_names
from quotes.views.every_request.person import signed_in


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """The record, what it suggests, and every change of the factor."""
    found = calibration()
    context: dict[str, Any] = {
        "found": found,
        "form": FactorForm(initial={"factor": found.offered}),
        "because": BecauseForm(prefix="back"),
        "names": {**component_names(), ServiceOutcome.OWN_HANDS: say("a fault of our own")},
        "least_services": LEAST_SERVICES,
        "least_stops": int(LEAST_STOPS),
        "prior_stops": int(PRIOR_STOPS),
        "confidence": round(100 * CONFIDENCE),
    }
    return render(request, "quotes/bench/calibration.html", context)


def factor(request: HttpRequest) -> HttpResponse:
    """What another factor would do to three quotes; a post with a reason sets it."""
    found = calibration()
    if request.method == "POST":
        form: FactorForm = FactorReasonForm(request.POST)
        if form.is_valid() and _set(request, form, found):
            return redirect("calibration")
    else:
        asked = FactorForm(request.GET)
        if not asked.is_valid():
            return _factor_page(request, asked, found, asked=None)
        form = FactorReasonForm(initial={"factor": asked.cleaned_data["factor"]})
    typed = form.data.get("factor") if form.is_bound else form.initial["factor"]
    looked_at = FactorForm({"factor": typed})
    wanted = looked_at.cleaned_data["factor"] if looked_at.is_valid() else None
    return _factor_page(request, form, found, asked=wanted)


def _set(request: HttpRequest, form: FactorForm, found: Calibration) -> bool:
    try:
        made = set_shop_factor(
            factor=form.cleaned_data["factor"],
            reason=form.cleaned_data["reason"],
            expected=_expected(request),
            by=signed_in(request),
            now=timezone.now(),
            record=found.in_short,
        )
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return False
    messages.success(
        request, say("Set: every quote from now on has {factor}.", factor=exact(made.after.normalize()))
    )
    return True


def _expected(request: HttpRequest) -> Decimal:
    """The factor that stood when the page was opened; nought, which none is, where it can't be read."""
    form = FactorForm({"factor": request.POST.get("expected", "")})
    return form.cleaned_data["factor"] if form.is_valid() else Decimal(0)


def _factor_page(
    request: HttpRequest, form: FactorForm, found: Calibration, *, asked: Decimal | None
) -> HttpResponse:
    context = {"form": form, "found": found, "asked": asked, "effects": ()}
    if asked is not None and asked != found.factor:
        context["effects"] = effects_of_factor(timezone.localdate(), float(asked))
    return render(request, "quotes/bench/shop_factor.html", context)


@require_POST
def take_back(request: HttpRequest, pk: int) -> HttpResponse:
    """Put the factor back to what it was before the latest change."""
    change, form = get_object_or_404(ShopFactorChange, pk=pk), BecauseForm(request.POST, prefix="back")
    if not form.is_valid():
        messages.error(
            request,
            say("The factor stands: {fault} Say why it is taken back.", fault=form.errors["because"][0]),
        )
        return redirect("calibration")
    try:
        because, now = form.cleaned_data["because"], timezone.now()
        made = take_back_factor(change=change, reason=because, by=signed_in(request), now=now)
        messages.success(
            request, say("Taken back: the factor is {factor} again.", factor=exact(made.after.normalize()))
        )
    except Refused as refused:
        messages.error(request, str(refused))
    return redirect("calibration")


urlpatterns = [
    path("bench/calibration/", page, name="calibration"),
    path("bench/calibration/factor/", factor, name="shop-factor"),
    path("bench/calibration/changes/<int:pk>/take-back/", take_back, name="shop-factor-back"),
]
