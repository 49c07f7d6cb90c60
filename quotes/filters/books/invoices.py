"""Narrowing the list of invoices: by words, kind, state, days."""

from __future__ import annotations

from typing import Any

import django_filters
from django.db.models import Q
from django.utils.functional import cached_property
from django.utils.translation import gettext_lazy as _

from catalogue.calc.search_key import search_key
from quotes.filters.books.fields import DayFilter, WordsFilter
from quotes.models import Acceptance, Customer, Engine, Invoice, InvoiceDraft, InvoiceKind, Quote
from quotes.models.books.invoice import InvoiceDraftQuerySet
from quotes.models.words import Bearing, bearing, every_word, may_stand_in_a_number
from quotes.queries.books.invoice_list import WORDS


class InvoiceFilter(django_filters.FilterSet):
    """Every word must stand in the document's number, its customer, its build or the engine's number."""

    q = WordsFilter(_("Find by number, customer, build or engine"), method="with_words")
    kind = django_filters.ChoiceFilter(label=_("Kind"), choices=InvoiceKind.choices, empty_label=_("all"))
    state = django_filters.ChoiceFilter(
        label=_("State"), choices=[(word, _(word)) for word in WORDS], empty_label=_("all"), method="in_state"
    )
    first = DayFilter(label=_("Issued from"), field_name="issued_on", lookup_expr="gte")
    last = DayFilter(label=_("To"), field_name="issued_on", lookup_expr="lte")

    class Meta:
        model = InvoiceDraft
        fields: list[str] = []

    def with_words(self, found: InvoiceDraftQuerySet, name: str, value: Any) -> Any:
        return found.filter(self.bears)

    @cached_property
    def bears(self) -> Q:
        """Looked up once for the rows and for how many they are."""
        words = search_key(self.form.cleaned_data["q"]).split()
        by = {"customer": bearing(Customer.objects.all(), words), "build": _builds(words)}
        return every_word(words, by, [_numbered(word) for word in words])

    def in_state(self, found: Any, name: str, value: Any) -> Any:
        return found.filter(place=WORDS.index(value))


def _builds(words: list[str]) -> Bearing:
    """Those of the engines that bear each word."""
    engines = bearing(Engine.objects.all(), words).keys
    builds = Acceptance.objects.order_by()
    return Bearing(tuple(keys and builds.filter(quote__engine__in=keys).values("pk") for keys in engines))


def _numbered(word: str) -> Q | None:
    """Those that bear it in their own number or in that of their build's quote."""
    if not may_stand_in_a_number(word):
        return None
    quotes = Quote.objects.filter(search_key__contains=word).values("pk")
    return Q(pk__in=Invoice.objects.filter(search_key__contains=word).values("draft")) | Q(
        build__in=Acceptance.objects.filter(quote__in=quotes).values("pk")
    )
