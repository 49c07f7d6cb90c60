"""Narrowing the lists of customers and engines."""

from __future__ import annotations

from typing import Any

import django_filters
from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.queries import engine_type_choices
from quotes.filters.quotes import LONGEST_SEARCH
from quotes.models import Customer, Engine
from quotes.models.customer import CustomerQuerySet
from quotes.models.engine import EngineQuerySet


class CustomerFilter(django_filters.FilterSet):
    """Every word must stand in the customer's name, telephone number or e-mail."""

    q = django_filters.CharFilter(
        method="with_words",
        label=_("Find by name, telephone or e-mail"),
        max_length=LONGEST_SEARCH,
        widget=forms.TextInput({"type": "search"}),
    )

    class Meta:
        model = Customer
        fields: list[str] = []

    def with_words(self, found: CustomerQuerySet, name: str, value: Any) -> CustomerQuerySet:
        return found.found_by(value)


class EngineFilter(django_filters.FilterSet):
    """Every word must stand in the engine's number or its owner's name."""

    q = django_filters.CharFilter(
        method="with_words",
        label=_("Find by engine number or customer"),
        max_length=LONGEST_SEARCH,
        widget=forms.TextInput({"type": "search"}),
    )
    type = django_filters.ChoiceFilter(
        label=_("Engine type"),
        field_name="type_code",
        choices=lambda: engine_type_choices(),
        empty_label=_("all"),
    )

    class Meta:
        model = Engine
        fields: list[str] = []

    def with_words(self, found: EngineQuerySet, name: str, value: Any) -> EngineQuerySet:
        return found.found_by(value)
