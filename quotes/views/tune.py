"""Loads and tune of an engine type in a tier: from geometry, beside what the trade says. For the owner."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from catalogue.queries import engine_type_choices
from quotes.calc.tune.beside_trade import FURTHEST_APART
from quotes.calc.tune.given import BadGeometry
from quotes.documents.loads_page import factors_of, figures_of, loads_of_tier, strengths_of
from quotes.queries.engines import known_catalogue


@require_safe
def tune(request: HttpRequest, engine_type: str, tier: str = "") -> HttpResponse:
    """One engine type in one tier, the boldest where none is named.

    Where its figures fit no engine, that is said instead.
    """
    catalogue = known_catalogue(engine_type)
    if catalogue is None or not catalogue.tiers or tier not in ("", *catalogue.tiers):
        raise Http404
    boldest = max(catalogue.tiers.values(), key=lambda each: each.rank)
    shown = catalogue.tiers[tier] if tier else boldest
    context: dict[str, Any] = {
        "types": engine_type_choices(),
        "engine": catalogue.engine_type,
        "tiers": catalogue.tiers.values(),
        "tier": shown,
        "laws": catalogue.load_laws.items(),
        "strengths": strengths_of(catalogue, shown),
        "furthest_pct": round(100 * FURTHEST_APART),
    }
    try:
        context |= {
            "figures": figures_of(catalogue.engine_type, shown),
            "loads": loads_of_tier(catalogue.engine_type, shown),
            "factors": factors_of(catalogue, shown),
        }
    except BadGeometry as wrong:
        context["wrong"] = str(wrong)
    return render(request, "quotes/tune.html", context)


urlpatterns = [
    path("catalogue/tune/<str:engine_type>/", tune, name="tune"),
    path("catalogue/tune/<str:engine_type>/<str:tier>/", tune, name="tune"),
]
