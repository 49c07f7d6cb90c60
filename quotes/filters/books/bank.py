"""Narrowing the list of bank files."""

from __future__ import annotations

from typing import Any

import django_filters
from django.db.models import Q, QuerySet
from django.utils.translation import gettext_lazy as _

from quotes.filters.books.fields import DayFilter, WordsFilter, in_any
from quotes.models import BankFile


class BankFileFilter(django_filters.FilterSet):
    """Every word must stand in the file's name, or in a line's payer or text."""

    q = WordsFilter(_("Find by file, payer or text"), method="with_words")
    state = django_filters.ChoiceFilter(
        label=_("State"),
        choices=(("waiting", _("to look at")), ("done", _("done"))),
        empty_label=_("all"),
        method="in_state",
    )
    first = DayFilter(label=_("Handed in from"), field_name="kept_at", lookup_expr="date__gte")
    last = DayFilter(label=_("To"), field_name="kept_at", lookup_expr="date__lte")

    class Meta:
        model = BankFile
        fields: list[str] = []

    def with_words(self, found: QuerySet[BankFile], name: str, value: Any) -> Any:
        lines = in_any(BankFile.objects.all(), ("name", "lines__payer", "lines__text"), value)
        return found.filter(pk__in=lines.order_by().values("pk"))

    def in_state(self, found: QuerySet[BankFile], name: str, value: Any) -> Any:
        return found.filter(Q(waiting__gt=0) if value == "waiting" else Q(waiting=0))
