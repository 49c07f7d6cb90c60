"""Narrowing the record of changes: by who, by kind of record, by days."""

from __future__ import annotations

from typing import Any

import django_filters
from django.contrib.auth.models import User
from django.utils.translation import gettext_lazy as _

from quotes.filters.books.fields import DayFilter
from quotes.models import AuditEntry, ByKind
from quotes.models.audit import AuditQuerySet
from quotes.queries.people import name_of
from quotes.queries.record.history import record_types


def _who() -> list[tuple[str, str]]:
    people = [(str(user.pk), name_of(user)) for user in User.objects.order_by("first_name", "username")]
    others = [(kind.value, str(kind.label)) for kind in (ByKind.CUSTOMER, ByKind.COMMAND)]
    return [*people, *others]


class ChangeFilter(django_filters.FilterSet):
    record = django_filters.ChoiceFilter(
        label=_("Kind of record"), field_name="record_type", choices=record_types, empty_label=_("all")
    )
    who = django_filters.ChoiceFilter(label=_("Who"), choices=_who, empty_label=_("all"), method="by_whom")
    first = DayFilter(label=_("From"), field_name="at", lookup_expr="date__gte")
    last = DayFilter(label=_("To"), field_name="at", lookup_expr="date__lte")

    class Meta:
        model = AuditEntry
        fields: list[str] = []

    def by_whom(self, found: AuditQuerySet, name: str, value: Any) -> AuditQuerySet:
        if value in ByKind.values:
            return found.filter(by_kind=value)
        return found.filter(by_kind=ByKind.PERSON, by_id=value)
