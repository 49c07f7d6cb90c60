"""Rows in one order that never changes: what has no value stands last, ties go by the row's own number."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.core.exceptions import FieldDoesNotExist
from django.db.models import F, Model, QuerySet
from django.db.models.expressions import OrderBy
from django_tables2.data import TableQuerysetData


class Ordered(TableQuerysetData):
    """A query whose order is the same on every database and on every page.

    A page's rows are chosen by their keys and only then read with all that is shown of them, so that a list
    of a hundred thousand sorts keys and not rows. `counted` are the same rows without their joins.
    """

    data: Any

    def __init__(self, data: QuerySet[Any], counted: QuerySet[Any] | None = None) -> None:
        super().__init__(data)
        self.counted = data if counted is None else counted

    def __len__(self) -> int:
        if not hasattr(self, "_length"):
            self._length = self.counted.count()
        return int(self._length)

    def __getitem__(self, key: Any) -> Any:
        if not isinstance(key, slice):
            return super().__getitem__(key)
        return self.data.filter(pk__in=self.data.values("pk")[key])

    def order_by(self, aliases: Iterable[str]) -> None:
        super().order_by(aliases)
        asked = [name for name in self.data.query.order_by if isinstance(name, str)]
        self.data = self.data.order_by(*(_nulls_last(self.data.model, name) for name in asked), "-pk")


def _nulls_last(model: type[Model], name: str) -> OrderBy | str:
    """A column that always has a value is sorted plainly, for only so PostgreSQL reads its index."""
    path = name.removeprefix("-")
    if _always_there(model, path):
        return name
    return F(path).desc(nulls_last=True) if name.startswith("-") else F(path).asc(nulls_last=True)


def _always_there(model: type[Model], path: str) -> bool:
    try:
        return path == "pk" or not model._meta.get_field(path).null
    except FieldDoesNotExist:
        return False
