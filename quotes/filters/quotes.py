"""Narrowing the list of quotes: by words, state, engine type."""

from __future__ import annotations

from typing import Any

import django_filters
from django import forms
from django.db.models import Q
from django.utils import timezone
from django.utils.functional import cached_property
from django.utils.translation import gettext_lazy as _

from catalogue.queries import engine_type_choices
from quotes.models import Quote, QuoteState
from quotes.models.quote import QuoteQuerySet, bears

LONGEST_SEARCH = 200


class QuoteFilter(django_filters.FilterSet):
    """Every word must stand in the quote's number, its customer or its engine's number."""

    q = django_filters.CharFilter(
        method="with_words",
        label=_("Find by number, customer or engine"),
        max_length=LONGEST_SEARCH,
        widget=forms.TextInput({"type": "search"}),
    )
    state = django_filters.ChoiceFilter(
        label=_("State"), choices=QuoteState.choices, empty_label=_("all"), method="in_state"
    )
    type = django_filters.ChoiceFilter(
        label=_("Engine type"),
        field_name="engine__type_code",
        choices=lambda: engine_type_choices(),
        empty_label=_("all"),
    )

    class Meta:
        model = Quote
        fields: list[str] = []

    def with_words(self, found: QuoteQuerySet, name: str, value: Any) -> QuoteQuerySet:
        return found.filter(self.bears)

    @cached_property
    def bears(self) -> Q:
        """Looked up once for the rows and for how many they are."""
        return bears(self.form.cleaned_data["q"])

    def in_state(self, found: QuoteQuerySet, name: str, value: str) -> QuoteQuerySet:
        return found.in_state(value, timezone.localdate())
