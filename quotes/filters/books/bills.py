"""Narrowing the list of bills: by words, state, days, build."""

from __future__ import annotations

from typing import Any

import django_filters
from django.db.models import Exists, OuterRef, Q
from django.utils.translation import gettext_lazy as _

from quotes.filters.books.fields import DayFilter, WordsFilter, in_any
from quotes.models import BillLine, SupplierBill
from quotes.models.books.bill import SupplierBillQuerySet
from quotes.queries.books.bills import WORDS


class BillFilter(django_filters.FilterSet):
    """Every word must stand in our number, theirs, the supplier or the note."""

    q = WordsFilter(_("Find by supplier, number or note"), method="with_words")
    state = django_filters.ChoiceFilter(
        label=_("State"), choices=[(word, _(word)) for word in WORDS], empty_label=_("all"), method="in_state"
    )
    first = DayFilter(label=_("From"), field_name="on", lookup_expr="gte")
    last = DayFilter(label=_("To"), field_name="on", lookup_expr="lte")
    build = WordsFilter(_("Build, by its quote"), method="for_build")

    class Meta:
        model = SupplierBill
        fields: list[str] = []

    def with_words(self, found: SupplierBillQuerySet, name: str, value: Any) -> Any:
        return in_any(found, ("number", "supplier", "supplier_number", "note"), value)

    def in_state(self, found: SupplierBillQuerySet, name: str, value: Any) -> Any:
        return found.filter(Q(place=WORDS.index(value)))

    def for_build(self, found: SupplierBillQuerySet, name: str, value: Any) -> Any:
        lines = BillLine.objects.filter(bill=OuterRef("pk"), build__quote__number__iexact=value.strip())
        return found.filter(Exists(lines))
