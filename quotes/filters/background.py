"""Narrowing the list of work in the background."""

from __future__ import annotations

import django_filters
from django.utils.translation import gettext_lazy as _

from quotes.filters.books.fields import DayFilter, WordsFilter
from quotes.models import BackgroundWork, WorkState


class BackgroundFilter(django_filters.FilterSet):
    """By words, state and the day it was asked for."""

    q = WordsFilter(_("Find by what it is"), field_name="about", lookup_expr="icontains")
    state = django_filters.ChoiceFilter(label=_("State"), choices=WorkState.choices, empty_label=_("all"))
    first = DayFilter(label=_("Asked for from"), field_name="asked_at", lookup_expr="date__gte")
    last = DayFilter(label=_("To"), field_name="asked_at", lookup_expr="date__lte")

    class Meta:
        model = BackgroundWork
        fields: list[str] = []
