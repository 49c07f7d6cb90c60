"""Narrowing what customers owe: by words, and by how long it has been due."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import django_filters
from django.db.models import Q, QuerySet
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from quotes.calc.books.ages import BOUNDS
from quotes.filters.books.fields import WordsFilter, in_any
from quotes.models import OpenItem
from quotes.tables.books.overdue import AGES

OVERDUE = "overdue"


class OverdueFilter(django_filters.FilterSet):
    """Every word must stand in the document's number or the customer's name."""

    q = WordsFilter(_("Find by customer or document"), method="with_words")
    age = django_filters.ChoiceFilter(
        label=_("Overdue"),
        choices=[(OVERDUE, _("all that is overdue")), *((age, _(words)) for age, words in AGES.items())],
        empty_label=_("all that is open"),
        method="of_age",
    )

    class Meta:
        model = OpenItem
        fields: list[str] = []

    def with_words(self, found: QuerySet[OpenItem], name: str, value: Any) -> Any:
        return in_any(found, ("number", "customer__name"), value)

    def of_age(self, found: QuerySet[OpenItem], name: str, value: str) -> Any:
        on = timezone.localdate()
        if value == OVERDUE:
            return found.filter(Q(late_day__lt=on))
        wanted, above = Q(), None
        for bound, age in BOUNDS:
            if age == value:
                wanted = Q(late_day__gte=on - timedelta(days=bound))
                break
            above = bound
        if above is not None:
            wanted &= Q(late_day__lt=on - timedelta(days=above))
        return found.filter(wanted)
