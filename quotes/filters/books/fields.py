"""Filters of the books whose faults say what was typed and what is allowed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import django_filters
from django import forms
from django.db.models import Q, QuerySet

from quotes.filters.quotes import LONGEST_SEARCH
from quotes.forms.figures import Day

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


class DayFilter(django_filters.Filter):
    """A day."""

    field_class = Day


class WordsFilter(django_filters.CharFilter):
    """Words to find rows by; the list says in which columns."""

    def __init__(self, label: StrOrPromise, **more: Any) -> None:
        super().__init__(
            label=label, max_length=LONGEST_SEARCH, widget=forms.TextInput({"type": "search"}), **more
        )


def in_any(rows: QuerySet[Any], fields: Sequence[str], typed: str) -> QuerySet[Any]:
    """The rows in which every word typed stands in one of the fields."""
    for word in typed.split():
        wanted = Q()
        for name in fields:
            wanted |= Q(**{f"{name}__icontains": word})
        rows = rows.filter(wanted)
    return rows
