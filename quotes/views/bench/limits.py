"""The maker's figures by engine type, and the workshop's instruments with the day of their check."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from quotes.actions.bench.limits import LimitFigures, enter_limit, keep_instrument, take_off_limit
from quotes.calc.bench.teardown.units_read import STEP
from quotes.forms.bench.limits import InstrumentForm, LimitForm
from quotes.forms.books.refusing import refuse
from quotes.models import Instrument, ManualLimit
from quotes.queries.bench.teardown.limits import limits_of
from quotes.views.every_request.person import signed_in


@require_safe
def limits(request: HttpRequest) -> HttpResponse:
    """Every limit of one engine type: the figure that holds, and whose it is."""
    types = dict(engine_type_choices())
    code = request.GET.get("type", "") or next(iter(types), "")
    if code and code not in types:
        raise Http404
    rows = limits_of(code) if code else ()
    context = {"types": types, "type": code, "type_name": types.get(code, ""), "rows": rows}
    return render(request, "quotes/bench/limits.html", context)


def limit(request: HttpRequest, type_code: str, code: str) -> HttpResponse:
    """One limit: what holds, what held before, and a form for the manual's figure."""
    known = type_code in dict(engine_type_choices())
    shown = {row.code: row for row in limits_of(type_code)} if known else {}
    if code not in shown:
        raise Http404
    form = LimitForm(request.POST if request.method == "POST" else None, prefix="limit")
    if form.is_bound and form.is_valid():
        try:
            enter_limit(
                type_code=type_code,
                code=code,
                figures=_figures(form.cleaned_data, shown[code].size),
                by=signed_in(request),
                now=timezone.now(),
            )
            messages.success(request, say("Kept: readings from now on are held against it."))
            return redirect(_back(type_code))
        except ValidationError as wrong:
            refuse(form, wrong)
    before = ManualLimit.objects.filter(type_code=type_code, limit_code=code).select_related("entered_by")
    context: dict[str, Any] = {"form": form, "row": shown[code], "type": type_code, "before": before}
    return render(request, "quotes/bench/limit.html", context)


def _figures(told: Mapping[str, Any], size: Decimal | None) -> LimitFigures:
    """As the catalogue keeps them: a figure in mm as a share of the bore, where the limit is one."""
    figures = LimitFigures(**told)
    if size is None:
        return figures
    names = ("limit", "standard_low", "standard_high", "watch")
    shares = {name: told[name] / size for name in names if told[name] is not None}
    return replace(figures, **{name: share.quantize(STEP, ROUND_HALF_UP) for name, share in shares.items()})


def _back(type_code: str) -> str:
    return f"{reverse('limits')}?type={type_code}"


@require_POST
def take_off(request: HttpRequest, type_code: str, code: str) -> HttpResponse:
    """The default stands again."""
    take_off_limit(type_code=type_code, code=code, by=signed_in(request), now=timezone.now())
    return redirect(_back(type_code))


def instruments(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """All instruments, and a form for a new one or the one named."""
    row = get_object_or_404(Instrument, pk=pk) if pk else None
    data = request.POST if request.method == "POST" else None
    form = InstrumentForm(data, prefix="instrument", initial=_initial(row))
    if form.is_bound and form.is_valid():
        try:
            keep_instrument(instrument=row, **form.cleaned_data)
            return redirect("instruments")
        except ValidationError as wrong:
            refuse(form, wrong)
    context = {"form": form, "row": row, "rows": Instrument.objects.all(), "today": timezone.localdate()}
    return render(request, "quotes/bench/instruments.html", context)


def _initial(row: Instrument | None) -> dict[str, Any]:
    if row is None:
        return {}
    names = ("name", "unit", "checked_on", "check_due_on", "note", "out_of_use")
    return {name: getattr(row, name) for name in names}


urlpatterns = [
    path("bench/limits/", limits, name="limits"),
    path("bench/limits/<str:type_code>/<str:code>/", limit, name="limit"),
    path("bench/limits/<str:type_code>/<str:code>/default/", take_off, name="limit-default"),
    path("bench/instruments/", instruments, name="instruments"),
    path("bench/instruments/<int:pk>/", instruments, name="instrument"),
]
