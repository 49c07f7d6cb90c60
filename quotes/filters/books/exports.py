"""Narrowing the list of export batches."""

from __future__ import annotations

import django_filters
from django.utils.translation import gettext_lazy as _

from quotes.filters.books.fields import DayFilter, WordsFilter
from quotes.models import BatchState, ExportBatch


class BatchFilter(django_filters.FilterSet):
    """By number, state and the day it was made."""

    q = WordsFilter(_("Find by number"), field_name="number", lookup_expr="icontains")
    state = django_filters.ChoiceFilter(label=_("State"), choices=BatchState.choices, empty_label=_("all"))
    first = DayFilter(label=_("Made from"), field_name="made_at", lookup_expr="date__gte")
    last = DayFilter(label=_("To"), field_name="made_at", lookup_expr="date__lte")

    class Meta:
        model = ExportBatch
        fields: list[str] = []
