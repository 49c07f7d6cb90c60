"""Narrowing the list of invoices: by words, kind, state, days."""

from __future__ import annotations

from typing import Any

import django_filters
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from catalogue.calc.search_key import search_key
from quotes.filters.books.fields import DayFilter, WordsFilter
from quotes.models import InvoiceDraft, InvoiceKind
from quotes.models.books.invoice import InvoiceDraftQuerySet
from quotes.queries.books.invoice_list import WORDS


class InvoiceFilter(django_filters.FilterSet):
    """Every word must stand in the document's number, its customer, its build or the engine's number."""

    q = WordsFilter(_("Find by number, customer, build or engine"), method="with_words")
    kind = django_filters.ChoiceFilter(label=_("Kind"), choices=InvoiceKind.choices, empty_label=_("all"))
    state = django_filters.ChoiceFilter(
        label=_("State"), choices=[(word, _(word)) for word in WORDS], empty_label=_("all"), method="in_state"
    )
    first = DayFilter(label=_("Issued from"), field_name="invoice__issued_on", lookup_expr="gte")
    last = DayFilter(label=_("To"), field_name="invoice__issued_on", lookup_expr="lte")

    class Meta:
        model = InvoiceDraft
        fields: list[str] = []

    def with_words(self, found: InvoiceDraftQuerySet, name: str, value: Any) -> Any:
        for word in value.split():
            key = search_key(word)
            found = found.filter(
                Q(invoice__number__icontains=word)
                | Q(invoice__search_key__contains=key)
                | Q(customer__search_key__contains=key)
                | Q(build__quote__number__icontains=word)
                | Q(build__quote__engine__search_key__contains=key)
            )
        return found

    def in_state(self, found: Any, name: str, value: Any) -> Any:
        return found.filter(place=WORDS.index(value))
