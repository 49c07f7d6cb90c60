"""Narrowing the list of enquiries: by words, state, engine type."""

from __future__ import annotations

from typing import Any

import django_filters
from django import forms
from django.utils.translation import gettext_lazy as _

from quotes.filters.quotes import LONGEST_SEARCH
from quotes.models import Enquiry, EnquiryState
from quotes.models.enquiry import EnquiryQuerySet


class EnquiryFilter(django_filters.FilterSet):
    """Every word must stand in the enquiry's number, its caller, its customer or its engine's number."""

    q = django_filters.CharFilter(
        method="with_words",
        label=_("Find by number, caller, customer or engine"),
        max_length=LONGEST_SEARCH,
        widget=forms.TextInput({"type": "search"}),
    )
    state = django_filters.ChoiceFilter(label=_("State"), choices=EnquiryState.choices, empty_label=_("all"))

    class Meta:
        model = Enquiry
        fields: list[str] = []

    def with_words(self, found: EnquiryQuerySet, name: str, value: Any) -> EnquiryQuerySet:
        return found.found_by(value)
