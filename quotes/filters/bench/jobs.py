"""Narrowing the list of jobs: by words, state, engine type, and where the engine is."""

from __future__ import annotations

from typing import Any

import django_filters
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from catalogue.calc.search_key import search_key
from catalogue.queries import engine_type_choices
from quotes.calc.bench.state import STATES
from quotes.filters.books.fields import WordsFilter
from quotes.models import Job
from quotes.models.bench.job import JobQuerySet

LEFT, ALL = "left", "all"
GONE = frozenset({"in service", "back for the next", "sent back"})
"""States of engines that have left: who asks for one of them wants to see it."""


class JobFilter(django_filters.FilterSet):
    """Every word must stand in the job's number, tag or shelf, its engine, its customer or its quote."""

    q = WordsFilter(_("Find by number, tag, engine or customer"), method="with_words")
    state = django_filters.ChoiceFilter(
        label=_("State"),
        choices=[(word, _(word)) for word in STATES],
        empty_label=_("any"),
        method="in_state",
    )
    type = django_filters.ChoiceFilter(
        label=_("Engine type"),
        field_name="engine__type_code",
        choices=lambda: engine_type_choices(),
        empty_label=_("any"),
    )
    where = django_filters.ChoiceFilter(
        label=_("Where it is"),
        choices=[(LEFT, _("left us")), (ALL, _("here or left"))],
        empty_label=_("here"),
        method="kept",
    )

    class Meta:
        model = Job
        fields: list[str] = []

    def with_words(self, found: JobQuerySet, name: str, value: Any) -> JobQuerySet:
        for word in value.split():
            key = search_key(word)
            found = found.filter(
                Q(number__icontains=word)
                | Q(tag__icontains=word)
                | Q(shelf__icontains=word)
                | Q(engine__search_key__contains=key)
                | Q(customer__search_key__contains=key)
                | Q(quote__number__icontains=word)
            )
        return found

    def in_state(self, found: JobQuerySet, name: str, value: Any) -> JobQuerySet:
        by_place = {"place": STATES.index(value)}
        return found.filter(**by_place)

    def kept(self, found: JobQuerySet, name: str, value: Any) -> JobQuerySet:
        """Where it is is asked of the whole list, below."""
        return found

    def filter_queryset(self, queryset: Any) -> Any:
        found = super().filter_queryset(queryset)
        where = self.form.cleaned_data.get("where")
        if where == ALL or self.form.cleaned_data.get("state") in GONE:
            return found
        return found.filter(left_at__isnull=False) if where == LEFT else found.filter(left_at=None)
