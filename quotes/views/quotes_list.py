"""The list of quotes."""

from __future__ import annotations

from typing import Any

from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from catalogue.queries import engine_type_choices
from quotes.filters.quotes import QuoteFilter
from quotes.models import Quote
from quotes.models.quote import QuoteQuerySet
from quotes.tables.quotes import QuoteTable
from quotes.views.table_page import TablePage


class QuoteList(TablePage):
    title = _("Quotes")
    one = _("quote")
    table_class = QuoteTable
    filterset_class = QuoteFilter
    template_name = "quotes/quote_list.html"

    def rows(self) -> QuoteQuerySet:
        return Quote.objects.listed(timezone.localdate())

    def bare_rows(self) -> QuoteQuerySet:
        return Quote.objects.all()

    def get_table_kwargs(self) -> dict[str, Any]:
        return {"engine_types": dict(engine_type_choices())}


urlpatterns = [path("quotes/", QuoteList.as_view(), name="quote-list")]
