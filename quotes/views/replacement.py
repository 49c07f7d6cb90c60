"""When to renew what: the ages that cost least beside the planned lives, for the owner."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.queries import engine_type_choices
from quotes.queries.replacement import BASES, ages_of_type
from quotes.queries.workshop import shop_rules


@require_safe
def ages(request: HttpRequest) -> HttpResponse:
    """Every component of one engine type on one basis."""
    types, on = dict(engine_type_choices()), timezone.localdate()
    code = request.GET.get("type", "") or next(iter(types), "")
    basis = next((one for one in BASES if one == (request.GET.get("in") or BASES[0])), None)
    if basis is None or (code not in types and types):
        raise Http404
    context: dict[str, Any] = {
        "types": types.items(),
        "type": code,
        "bases": BASES,
        "basis": basis,
        "rows": ages_of_type(code, basis, on) if types else (),
        "shop": shop_rules(on),
    }
    return render(request, "quotes/replacement/list.html", context)


urlpatterns = [path("catalogue/replacement-ages/", ages, name="replacement-ages")]
