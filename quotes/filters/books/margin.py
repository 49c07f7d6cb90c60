"""Narrowing the job margins: by words, what was built, engine type and period."""

from __future__ import annotations

import django_filters
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from catalogue.models import EngineType
from quotes.filters.books.fields import DayFilter, WordsFilter
from quotes.models import Acceptance


class MarginFilter(django_filters.FilterSet):
    """The rows are worked out, so what is asked for here is applied to them and not by the database."""

    q = WordsFilter(_("Find by build or customer"), method="kept")
    tier = django_filters.ChoiceFilter(
        label=_("Built as"),
        choices=lambda: [
            (name, say(name))
            for name in Acceptance.objects.order_by("tier_name")
            .values_list("tier_name", flat=True)
            .distinct()
        ],
        empty_label=_("all"),
        method="kept",
    )
    type = django_filters.ChoiceFilter(
        label=_("Engine type"),
        choices=lambda: [(name, say(name)) for name in EngineType.objects.values_list("name", flat=True)],
        empty_label=_("all"),
        method="kept",
    )
    first = DayFilter(label=_("Invoiced from"), method="kept")
    last = DayFilter(label=_("To"), method="kept")

    class Meta:
        model = Acceptance
        fields: list[str] = []

    def kept(self, found: object, name: str, value: object) -> object:
        return found
