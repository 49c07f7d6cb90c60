"""Narrowing the list of payments: by words, kind, how, days."""

from __future__ import annotations

from typing import Any

import django_filters
from django.db.models import Q

from catalogue.calc.search_key import search_key
from quotes.filters.books.fields import DayFilter, WordsFilter
from quotes.models import Payment, PaymentKind, PaymentMethod
from quotes.models.books.payment import PaymentQuerySet


class PaymentFilter(django_filters.FilterSet):
    """Every word must stand in the payment's number, its reference, its customer or its build."""

    q = WordsFilter("Find by number, reference or customer", method="with_words")
    kind = django_filters.ChoiceFilter(label="Kind", choices=PaymentKind.choices, empty_label="all")
    method = django_filters.ChoiceFilter(label="How", choices=PaymentMethod.choices, empty_label="all")
    first = DayFilter(label="From", field_name="on", lookup_expr="gte")
    last = DayFilter(label="To", field_name="on", lookup_expr="lte")

    class Meta:
        model = Payment
        fields: list[str] = []

    def with_words(self, found: PaymentQuerySet, name: str, value: Any) -> Any:
        for word in value.split():
            found = found.filter(
                Q(number__icontains=word)
                | Q(reference__icontains=word)
                | Q(customer__search_key__contains=search_key(word))
                | Q(build__quote__number__icontains=word)
            )
        return found
