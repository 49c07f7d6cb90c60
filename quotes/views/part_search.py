"""Parts found as one types: one box over the catalogue and all that suppliers list."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from catalogue.calc.sought_parts import sought_parts
from catalogue.models import Supplier
from catalogue.queries.part_search import NONE, find_parts
from catalogue.queries.price_lists import own_currency


@require_safe
def part_search(request: HttpRequest) -> HttpResponse:
    """The page, or while one types what was found, to be put below the box."""
    sought = sought_parts(request.GET.get("q", ""))
    supplier = request.GET.get("supplier", "").replace("\x00", "")
    found = find_parts(sought, supplier) if sought.is_enough else NONE
    context = {"sought": sought, "found": found, "supplier": supplier, "own": own_currency()}
    if request.headers.get("HX-Request") == "true":
        return render(request, "quotes/prices/parts_found.html", context)
    context["suppliers"] = Supplier.objects.exclude(price_lists=None).distinct().order_by("name")
    return render(request, "quotes/prices/part_search.html", context)


urlpatterns = [path("catalogue/search/", part_search, name="part-search")]
