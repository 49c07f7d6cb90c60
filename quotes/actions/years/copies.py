"""Rows that hang together, copied with new keys, new names, new numbers and other days.

What is copied was written by the actions that people use, so what holds for it holds for each copy: sums,
fingerprints, and which document leads to which.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db import models

from catalogue.models.kept import Kept
from quotes.actions.years.rows import Cell, Rows, canonical, plain_cell
from quotes.calc.years.template import Template, template

PDF = (
    b"%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj 2 0 obj<</Type/Pages/Kids[]/Count 0>>endobj\n%%EOF"
)
"""What stands for every file: a hundred thousand real ones would fill a disk."""
PDF_SHA256 = hashlib.sha256(PDF).hexdigest()
Row = tuple[type[models.Model], models.Model]


@dataclass(slots=True)
class Copy:
    """One copy while it is made. `texts` by the names of places, `days` how much later, `given` new keys."""

    texts: dict[str, str]
    days: int
    given: Mapping[type[models.Model], int]
    """Of a table the one row that these lead to and that is not among them, such as the customer."""
    first: dict[type[models.Model], int] = field(default_factory=dict)
    prints: dict[str, str] = field(default_factory=dict)
    """Fingerprint of a sheet that was copied, to that of its copy."""


Maker = Callable[[Copy], Cell]


class Pattern:
    """Rows that are copied together."""

    def __init__(
        self, rows: Sequence[models.Model], names: Mapping[str, str], given: Sequence[models.Model]
    ) -> None:
        """`names` leads from a text in the rows to its place's name; `given` are rows that they lead to."""
        self.names = names
        self.many: dict[type[models.Model], int] = {}
        self._places: dict[tuple[type[models.Model], Any], int] = {}
        self._given = {(type(row), row.pk) for row in given}
        self._prints = {print_of for row in rows if (print_of := getattr(row, "sheet_sha256", ""))}
        for row in rows:
            place = self.many.get(type(row), 0)
            self._places[type(row), row.pk] = place
            self.many[type(row)] = place + 1
        self._rows = [(type(row), *self._plan(row)) for row in rows]

    def copied(self, rows: Rows, copy: Copy) -> None:
        """Add one copy to the rows to be written."""
        for model, many in self.many.items():
            copy.first[model] = rows.key(model, many)
        for model, cells, makers in self._rows:
            made = list(cells)
            for index, make in makers:
                made[index] = make(copy)
            rows.add(model, made)

    def _plan(self, row: models.Model) -> tuple[list[Cell], list[tuple[int, Maker]]]:
        cells: list[Cell] = []
        makers: list[tuple[int, Maker]] = []
        for index, column in enumerate(row._meta.concrete_fields):
            made = self._cell(row, column)
            cells.append(None if callable(made) else made)
            if callable(made):
                makers.append((index, made))
        return cells, makers

    def _cell(self, row: models.Model, column: models.Field[Any, Any]) -> Cell | Maker:
        value = getattr(row, column.attname)
        if value is None:
            return None
        if column.primary_key or column.is_relation:
            return self._key(type(row) if column.primary_key else column.related_model, value)
        if isinstance(column, models.BinaryField):
            return PDF
        if isinstance(row, Kept) and column.name == "place":
            return ""
        if column.name == "sha256":
            return PDF_SHA256
        if column.unique and (unique := self._unique(row, column, value)):
            return unique
        if isinstance(value, str) and value in self._prints:
            return lambda copy: copy.prints[value]
        text = canonical(value) if isinstance(column, models.JSONField) else plain_cell(value)
        if not isinstance(text, str):
            return text
        made = template(text, self.names)
        if column.name == "sheet" and hasattr(row, "sheet_sha256"):
            return _sheet(made, row.sheet_sha256)
        return _filled(made) if isinstance(made, Template) else made

    def _key(self, model: Any, value: Any) -> Cell | Maker:
        if (model, value) in self._given:
            return lambda copy: copy.given[model]
        place = self._places.get((model, value))
        if place is None:
            return plain_cell(value)
        return lambda copy: copy.first[model] + place

    def _unique(self, row: models.Model, column: models.Field[Any, Any], value: Any) -> Maker | None:
        """What no two rows share and is no number of a document: a key made by a form."""
        if str(value) in self.names:
            return None
        model, place = type(row), self._places[type(row), row.pk]
        if isinstance(column, models.UUIDField):
            return lambda copy: f"{copy.first[model] + place:032x}"
        return lambda copy: f"copy {copy.first[model] + place}"


def _filled(made: Template) -> Maker:
    return lambda copy: made.filled(copy.texts, copy.days)


def _sheet(made: Template | str, print_of: str) -> Maker:
    """A sheet, whose fingerprint is taken as it is filled: the column for it comes after."""

    def make(copy: Copy) -> str:
        text = made.filled(copy.texts, copy.days) if isinstance(made, Template) else made
        copy.prints[print_of] = hashlib.sha256(text.encode()).hexdigest()
        return text

    return make
