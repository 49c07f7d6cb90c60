"""Narrowing the list of price lists."""

from __future__ import annotations

import django_filters
from django.utils.translation import gettext_lazy as _

from catalogue.filters.filters import Entries
from catalogue.models import ListState, PriceList, Supplier
from quotes.filters.books.fields import WordsFilter


class PriceListFilter(django_filters.FilterSet):
    """By words, supplier and state."""

    q = WordsFilter(_("Find by the file's name"), field_name="name", lookup_expr="icontains")
    supplier = Entries(
        label=_("Supplier"), queryset=Supplier.objects.filter(kind="parts"), empty_label=_("all")
    )
    state = django_filters.ChoiceFilter(label=_("State"), choices=ListState.choices, empty_label=_("all"))

    class Meta:
        model = PriceList
        fields: list[str] = []
