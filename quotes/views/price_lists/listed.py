"""One listed part: what the supplier asks for it, every price it had, and the part that it belongs to."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.db.models import F
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.price_list.listed import number_key
from catalogue.models import HeldPrice, ListedPart, ListedPrice, Offer, Part, PriceList
from catalogue.queries.price_lists import own_currency

SHOWN = 100


@require_safe
def listed_part(request: HttpRequest, pk: int) -> HttpResponse:
    """Its terms, its prices with the list that each comes from, and the offers that follow it."""
    row = get_object_or_404(ListedPart.objects.select_related("supplier", "price_list"), pk=pk)
    prices = ListedPrice.objects.filter(number_key=row.number_key, price_list__supplier=row.supplier_id)
    told = prices.select_related("price_list").defer(*(f"price_list__{name}" for name in PriceList.LARGE))
    held_until = _held_until(row)
    said = [(one, _holds_from(one, held_until)) for one in told.order_by("-price_list__applied_at")[:SHOWN]]
    others = ListedPart.objects.filter(supplier=row.supplier_id, gone=False)
    context = {
        "row": row,
        "prices": said,
        "holds_from": next((day for one, day in said if one.price_list_id == row.price_list_id), None),
        "next": others.filter(number_key=number_key(row.superseded_by)).first()
        if row.superseded_by
        else None,
        "before": others.filter(superseded_by=row.number).exclude(pk=row.pk)[:SHOWN],
        "elsewhere": ListedPart.objects.filter(number_key=row.number_key, gone=False)
        .exclude(pk=row.pk)
        .select_related("supplier"),
        "offers": [one for one in _offers(row) if number_key(one.number or one.part_id) == row.number_key],
        "parts": Part.objects.select_related("engine_type").order_by("engine_type__place", "name"),
        "own": own_currency(),
    }
    return render(request, "quotes/prices/listed_part.html", context)


def _held_until(row: ListedPart) -> dict[int, date]:
    """By list: the day of the yes that took its price in, where that was after the list came in."""
    yes = HeldPrice.objects.filter(number_key=row.number_key, price_list__supplier=row.supplier_id)
    later = yes.filter(yes_at__gt=F("price_list__applied_at")).values_list("price_list", "yes_at")
    return {price_list: timezone.localdate(at) for price_list, at in later if at}


def _holds_from(price: ListedPrice, held_until: Mapping[int, date]) -> date | None:
    """The day of its list, or of the yes that took it in after that."""
    day = price.price_list.in_force_from
    return max(day, held_until.get(price.price_list_id, day)) if day else None


@require_POST
def offer_card(request: HttpRequest, pk: int) -> HttpResponse:
    """The card of the part that was chosen, or of a new one, filled in from the list."""
    row, part = get_object_or_404(ListedPart, pk=pk), request.POST.get("part", "")
    if part and not Part.objects.filter(code=part).exists():
        raise Http404("There is no such part.")
    card = ("catalogue:change", "parts", part) if part else ("catalogue:new", "parts")
    return redirect(f"{reverse(card[0], args=card[1:])}?listed={row.pk}")


def _offers(row: ListedPart) -> list[Offer]:
    return list(Offer.objects.filter(supplier=row.supplier_id).select_related("part"))
