"""Rows of a card that can be added without a reload: counted by what was posted, not by a total."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any, Generic, TypeVar

from quotes.forms.card_parts import OfferedForm
from quotes.forms.offered import Offered

MOST = 60
"""So many rows of one kind are read; nobody types more into a call."""

Row = TypeVar("Row", bound=OfferedForm)


class Rows(Generic[Row]):
    """The rows named `name-0-...`, `name-1-...`, in order, with one blank row at the end if there is none."""

    def __init__(self, name: str, form: type[Row], data: Mapping[str, Any], offered: Offered) -> None:
        self.name, self.form, self.offered = name, form, offered
        self.forms = [form(data, offered, f"{name}-{index}") for index in _indices(name, data)]
        self._data = data

    def __iter__(self) -> Iterator[Row]:
        return iter(self.forms)

    @property
    def filled(self) -> list[Row]:
        return [row for row in self.forms if not row.is_blank]

    def add(self) -> Row:
        """One more row, with the choices that usually repeat taken from the row before."""
        index = 1 + max((int(str(row.prefix).rsplit("-", 1)[1]) for row in self.forms), default=-1)
        prefix = f"{self.name}-{index}"
        unit = self.forms[-1].typed("unit") if self.forms and "unit" in self.form.base_fields else ""
        row = self.form({f"{prefix}-unit": unit or self.offered.unit}, self.offered, prefix)
        self.forms.append(row)
        return row

    def drop(self, prefix: str) -> None:
        self.forms = [row for row in self.forms if row.prefix != prefix]


def _indices(name: str, data: Mapping[str, Any]) -> list[int]:
    pattern = re.compile(rf"^{name}-(\d{{1,4}})-")
    found = {int(match[1]) for key in data if (match := pattern.match(key))}
    return sorted(found)[:MOST]
