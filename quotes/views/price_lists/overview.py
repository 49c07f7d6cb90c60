"""All price lists, and how each supplier's lists are taken."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import dateformat, timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST

from catalogue.actions.price_list.terms import drop_rate, set_rate, set_terms
from catalogue.calc.said import say
from catalogue.models import ExchangeRate, ListTerms, PriceList, Supplier
from catalogue.queries.price_lists import own_currency
from quotes.filters.price_lists import PriceListFilter
from quotes.forms.price_lists import ListTermsForm, RateForm
from quotes.tables.price_lists import PriceListTable
from quotes.views.every_request.person import signed_in
from quotes.views.table_page import TablePage


class PriceLists(TablePage):
    """Every file that was handed in, the latest first."""

    title = _("Price lists")
    one, many = _("price list"), _("price lists")
    table_class = PriceListTable
    filterset_class = PriceListFilter
    template_name = "quotes/prices/lists.html"

    def rows(self) -> QuerySet[Any]:
        return PriceList.objects.told()

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        suppliers = Supplier.objects.filter(kind="parts").select_related("list_terms")
        return super().get_context_data(**kwargs) | {"suppliers": suppliers}


def terms(request: HttpRequest, code: str) -> HttpResponse:
    """In which currency a supplier lists, and what is held."""
    supplier = get_object_or_404(Supplier, code=code, kind="parts")
    row = ListTerms.objects.filter(supplier=supplier).first() or ListTerms(supplier=supplier)
    stands = {"currency": row.currency, "jump_percent": row.jump_percent}
    form = ListTermsForm(request.POST or None, initial=stands)
    if request.method == "POST" and form.is_valid():
        set_terms(supplier=code, **form.cleaned_data)
        messages.success(request, say("Kept: how price lists of {name} are taken.", name=say(supplier.name)))
        return redirect("price-list-list")
    context = {"form": form, "supplier": supplier, "own": own_currency()}
    return render(request, "quotes/prices/terms.html", context, status=422 if form.errors else 200)


def rates(request: HttpRequest) -> HttpResponse:
    """Rates of other currencies, each from its day on."""
    form = RateForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        set_rate(**given, by=signed_in(request), now=timezone.now())
        day = dateformat.format(given["day"], "j F Y")
        said = say("Kept: {currency} from {day}.", currency=given["currency"], day=day)
        messages.success(request, said)
        return redirect("exchange-rates")
    rows = ExchangeRate.objects.select_related("by")
    context = {"form": form, "rows": rows, "own": own_currency()}
    return render(request, "quotes/prices/rates.html", context, status=422 if form.errors else 200)


@require_POST
def rate_drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Takes a rate out again."""
    row = get_object_or_404(ExchangeRate, pk=pk)
    drop_rate(pk=pk)
    day = dateformat.format(row.day, "j F Y")
    messages.success(request, say("Taken out: {currency} from {day}.", currency=row.currency, day=day))
    return redirect("exchange-rates")
