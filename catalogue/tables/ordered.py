"""Rows in one order that never changes: what has no value stands last, ties go by code."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.db.models import F
from django.db.models.expressions import OrderBy
from django_tables2.data import TableQuerysetData


class TotallyOrdered(TableQuerysetData):
    """A query whose order is the same on every database and on every page."""

    data: Any

    def order_by(self, aliases: Iterable[str]) -> None:
        super().order_by(aliases)
        asked = [name for name in self.data.query.order_by if isinstance(name, str)]
        self.data = self.data.order_by(*(_nulls_last(name) for name in asked), "code")


def _nulls_last(name: str) -> OrderBy:
    if name.startswith("-"):
        return F(name[1:]).desc(nulls_last=True)
    return F(name).asc(nulls_last=True)
