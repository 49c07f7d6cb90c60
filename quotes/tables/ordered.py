"""Rows in one order that never changes: what has no value stands last, ties go by the row's own number."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.core.exceptions import FieldDoesNotExist
from django.db.models import F, Model, QuerySet
from django.db.models.expressions import OrderBy
from django_tables2.data import TableQuerysetData

FAR = 1000
"""So many rows are passed over; further on it is asked how many there are."""


class Ordered(TableQuerysetData):
    """A query whose order is the same on every database and on every page.

    A page's rows are chosen by their keys and only then read with all that is shown of them, so that a list
    of a hundred thousand sorts keys and not rows. `counted` are the same rows without their joins, `read` all
    rows with them.
    """

    data: Any

    def __init__(
        self, data: QuerySet[Any], counted: QuerySet[Any] | None = None, read: QuerySet[Any] | None = None
    ) -> None:
        super().__init__(data)
        self.counted = data if counted is None else counted
        self.read = data if read is None else read
        self.behind: list[str] = []
        """What is sorted by behind a key that may be empty, as `latest__gross_to`."""

    def __len__(self) -> int:
        if not hasattr(self, "_length"):
            self._length = self.counted.count()
        return int(self._length)

    def __getitem__(self, key: Any) -> Any:
        if not isinstance(key, slice):
            return super().__getitem__(key)
        return self.read.filter(pk__in=self._keys(key)).order_by(*self.data.query.order_by)

    def _keys(self, part: slice) -> Any:
        """Where some have nothing to sort by, those that have are read first, along an index."""
        if not self.behind:
            return self.data.values("pk")[part]
        start, stop = part.start or 0, part.stop
        found = self._of_those_there(start, stop)
        if stop is not None and len(found) == stop - start:
            return found
        from_there = max(0, start - self._keyed(True).count()) if start and not found else 0
        rest = self._keyed(False).order_by("-pk").values_list("pk", flat=True)
        more = slice(from_there, None if stop is None else from_there + stop - start - len(found))
        return found + list(rest[more])

    def _of_those_there(self, start: int, stop: int | None) -> list[Any]:
        """From the nearer end: the last pages are asked for by a press, and would be the dearest."""
        lacks = {f"{self.behind[0].removeprefix('-')}__isnull": False}
        there = self.data.filter(**lacks).order_by(*self.behind, "-pk").values_list("pk", flat=True)
        if stop is None or start < FAR:
            return list(there[start:stop])
        count = self._keyed(True).count()
        if start < count // 2:
            return list(there[start:stop])
        return list(there.reverse()[max(0, count - stop) : max(0, count - start)])[::-1]

    def _keyed(self, there: bool) -> QuerySet[Any]:
        """Those whose key leads to a row, or those whose key is empty; neither is joined."""
        key = self.behind[0].removeprefix("-").partition("__")[0]
        rows: QuerySet[Any] = self.data.filter(**{f"{key}__isnull": not there})
        return rows

    def order_by(self, aliases: Iterable[str]) -> None:
        super().order_by(aliases)
        model, asked = self.data.model, self.data.query.order_by
        names = [name for name in asked if isinstance(name, str)]
        by = [_nulls_last(model, name) if isinstance(name, str) else name for name in asked]
        self.data = self.data.order_by(*by, "-pk")
        self.behind = names if names and _is_behind_one_empty_key(model, names) else []


def _is_behind_one_empty_key(model: type[Model], names: list[str]) -> bool:
    """Whether all stand in one row that a key leads to which may be empty, and are never empty there."""
    keys = {name.removeprefix("-").partition("__")[0] for name in names}
    if len(keys) != 1 or not all("__" in name for name in names):
        return False
    field: Any = _field(model, keys.pop())
    return (
        field is not None
        and field.concrete
        and field.null
        and field.related_model is not None
        and all(_always_there(field.related_model, name.partition("__")[2]) for name in names)
    )


def _nulls_last(model: type[Model], name: str) -> OrderBy | str:
    """A column that always has a value is sorted plainly, for only so PostgreSQL reads its index."""
    path = name.removeprefix("-")
    if _always_there(model, path):
        return name
    return F(path).desc(nulls_last=True) if name.startswith("-") else F(path).asc(nulls_last=True)


def _always_there(model: type[Model], path: str) -> bool:
    """Also behind keys that are never empty."""
    if path == "pk":
        return True
    first, _, rest = path.partition("__")
    field = _field(model, first)
    if field is None or field.null:
        return False
    return not rest or (field.related_model is not None and _always_there(field.related_model, rest))


def _field(model: type[Model], name: str) -> Any:
    try:
        return model._meta.get_field(name)
    except FieldDoesNotExist:
        return None
