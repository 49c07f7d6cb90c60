"""Parts found as one types: one box over the catalogue and all that suppliers list."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from catalogue.calc.sought_parts import sought_parts
from catalogue.models import Supplier
from catalogue.queries.part_search import NONE, find_parts
from catalogue.queries.price_lists import own_currency


def found_listed(typed: str) -> dict[str, Any]:
    """What suppliers list, for a line that takes it: what is listed no longer can't be had."""
    sought = sought_parts(typed)
    found = find_parts(sought) if sought.is_enough else NONE
    kept = tuple(row for row in found.listed if not row.gone)
    return {"sought": sought, "rows": kept, "more": found.more, "own": own_currency()}


@require_safe
def part_search(request: HttpRequest) -> HttpResponse:
    """The page, or while one types what was found, to be put below the box."""
    if request.GET.get("for") == "line":
        listed = found_listed(request.GET.get("q", ""))
        return render(request, "quotes/worksheet/listed_found.html", {"listed": listed})
    sought = sought_parts(request.GET.get("q", ""))
    supplier = request.GET.get("supplier", "").replace("\x00", "")
    found = find_parts(sought, supplier) if sought.is_enough else NONE
    context = {"sought": sought, "found": found, "supplier": supplier, "own": own_currency()}
    if request.headers.get("HX-Request") == "true":
        return render(request, "quotes/prices/parts_found.html", context)
    context["suppliers"] = Supplier.objects.exclude(price_lists=None).distinct().order_by("name")
    return render(request, "quotes/prices/part_search.html", context)


urlpatterns = [path("catalogue/search/", part_search, name="part-search")]
