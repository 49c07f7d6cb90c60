"""Narrowing the list of payments: by words, kind, how, days."""

from __future__ import annotations

from typing import Any

import django_filters
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from catalogue.calc.search_key import search_key
from quotes.filters.books.fields import DayFilter, WordsFilter
from quotes.models import Acceptance, Customer, Payment, PaymentKind, PaymentMethod, Quote
from quotes.models.books.payment import PaymentQuerySet


class PaymentFilter(django_filters.FilterSet):
    """Every word must stand in the payment's number, its reference, its customer or its build."""

    q = WordsFilter(_("Find by number, reference or customer"), method="with_words")
    kind = django_filters.ChoiceFilter(label=_("Kind"), choices=PaymentKind.choices, empty_label=_("all"))
    method = django_filters.ChoiceFilter(label=_("How"), choices=PaymentMethod.choices, empty_label=_("all"))
    first = DayFilter(label=_("From"), field_name="on", lookup_expr="gte")
    last = DayFilter(label=_("To"), field_name="on", lookup_expr="lte")

    class Meta:
        model = Payment
        fields: list[str] = []

    def with_words(self, found: PaymentQuerySet, name: str, value: Any) -> Any:
        for word in value.split():
            key = search_key(word)
            quotes = Quote.objects.filter(search_key__contains=key).values("pk")
            found = found.filter(
                Q(number__icontains=word)
                | Q(reference__icontains=word)
                | Q(customer__in=Customer.objects.filter(search_key__contains=key).values("pk"))
                | Q(build__in=Acceptance.objects.filter(quote__in=quotes).values("pk"))
            )
        return found
