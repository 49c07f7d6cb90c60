"""The lists of customers and of their engines."""

from __future__ import annotations

from typing import Any

from django.db.models import Count, IntegerField, OuterRef, QuerySet, Subquery
from django.db.models.functions import Coalesce
from django.urls import path
from django.utils.translation import gettext_lazy as _

from catalogue.queries import engine_type_choices
from quotes.filters.customers import CustomerFilter, EngineFilter
from quotes.models import Customer, Engine, Quote
from quotes.tables.customers import CustomerTable
from quotes.tables.engines import EngineTable
from quotes.views.table_page import TablePage


class CustomerList(TablePage):
    """All customers, by name."""

    title = _("Customers")
    one = _("customer")
    table_class = CustomerTable
    filterset_class = CustomerFilter
    template_name = "quotes/customers_list.html"

    def rows(self) -> QuerySet[Customer]:
        kept = {"engines_kept": _count(Engine, "customer"), "quotes_kept": _count(Quote, "customer")}
        return Customer.objects.annotate(**kept)

    def bare_rows(self) -> QuerySet[Customer]:
        return Customer.objects.all()


class EngineList(TablePage):
    """All engines, by number."""

    title = _("Engines")
    one = _("engine")
    table_class = EngineTable
    filterset_class = EngineFilter
    template_name = "quotes/engines_list.html"

    def rows(self) -> QuerySet[Engine]:
        kept = {"quotes_kept": _count(Quote, "engine")}
        return Engine.objects.select_related("customer").annotate(**kept)

    def bare_rows(self) -> QuerySet[Engine]:
        return Engine.objects.all()

    def get_table_kwargs(self) -> dict[str, Any]:
        return {"engine_types": dict(engine_type_choices())}


def _count(model: type[Engine | Quote], of: str) -> Coalesce:
    """How many rows there are of one kind; counted apart, because two joins would multiply each other."""
    rows = model._default_manager.filter(**{of: OuterRef("pk")}).order_by().values(of)
    return Coalesce(Subquery(rows.annotate(n=Count("pk")).values("n"), output_field=IntegerField()), 0)


urlpatterns = [
    path("customers/", CustomerList.as_view(), name="customer-list"),
    path("engines/", EngineList.as_view(), name="engine-list"),
]
