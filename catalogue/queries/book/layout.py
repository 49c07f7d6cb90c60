"""The sheets of the workbook and their columns: one for each kind of row, one for each table of its lines."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from django.core.exceptions import FieldDoesNotExist
from django.db import models

from catalogue.calc.said import say
from catalogue.queries.shapes import SHAPES, Shape
from catalogue.queries.shapes.shape import Dump, Line, at, put

Sort = Literal["code", "text", "number", "decimal", "whole", "yes", "json"]
PLACES = ("position", "way", "condition")
"""Columns that only say in which order lines stand."""
NAMES = {
    "Offer": "offers", "ComponentLife": "lives", "Measured": "measured", "Companion": "companions",
    "Reach": "ways in", "ComponentOperation": "ways in, operations", "ComponentWork": "ways in, machine work",
    "OperationHours": "hours", "OperationLink": "operations, links",
    "OperationComponent": "operations, components", "Consumption": "operations, consumes",
    "WorkNeeds": "machine work, needs", "WorkComponent": "machine work, components",
    "TierComponent": "tiers, components", "TierChange": "tiers, changes",
    "TierOperation": "tiers, operations", "TierWork": "tiers, machine work",
    "FindingAsks": "findings, asks", "EventAsks": "events, asks",
}  # fmt: skip
"""What the sheet of a table of lines is called; a table that is not named here goes by its own name."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a sheet: `key` in the table, `head` in the sheet."""

    key: str
    sort: Sort
    needed: bool
    blank: Any = None
    """What an empty cell says."""
    choices: tuple[str, ...] = ()
    longest: int = 0
    decimals: int = 0

    @property
    def head(self) -> str:
        return self.key.removesuffix("_id").replace("_", " ")

    @property
    def allowed(self) -> str:
        """What may stand there, in words."""
        if self.choices:
            return say("one of {names}", names=", ".join(self.choices))
        said = {
            "code": say("the code of an entry: letters, digits, underscores, dots and hyphens"),
            "text": say("text of at most {most} characters", most=self.longest),
            "number": say("a number"),
            "decimal": say("a number with at most {most} decimals", most=self.decimals),
            "whole": say("a whole number"),
            "yes": say("yes or no"),
            "json": say("a number, or JSON such as {example}", example='{"typical": 15}'),
        }
        return said[self.sort]


@dataclass(frozen=True, slots=True)
class SheetLayout:
    """One sheet. Of the entries themselves, or of lines that each name their entry in the first column."""

    name: str
    kind: str
    columns: tuple[Column, ...]
    split: Callable[[Dump], Iterable[Line]] | None = None
    join: Callable[[Sequence[Line]], Dump] | None = None
    once: tuple[tuple[str, ...], ...] = ()
    """Columns that, taken together, no two lines may share."""
    ordered_by: tuple[str, ...] = ()

    @property
    def of_lines(self) -> bool:
        return self.split is not None

    @property
    def owner(self) -> Column:
        """The column with the entry's code."""
        return self.columns[0]

    def column(self, key: str) -> Column | None:
        return next((column for column in self.columns if column.key == key), None)


@dataclass(frozen=True, slots=True)
class _Map:
    """A value that is a list of pairs, laid out in lines."""

    name: str
    path: str
    key: Column
    value: Column

    def split(self, dump: Dump) -> list[Line]:
        pairs: Mapping[str, Any] = at(dump, self.path) or {}
        return [{self.key.key: key, self.value.key: value} for key, value in pairs.items()]

    def join(self, lines: Sequence[Line]) -> Dump:
        dump: Dump = {}
        put(dump, self.path, {line[self.key.key]: line[self.value.key] for line in lines})
        return dump


_COUNT = Column("count", "whole", needed=True)
_SOURCE = Column("source", "text", needed=False, blank="", longest=2000)
MAPS: Mapping[str, tuple[_Map, ...]] = {
    "engine_types": (_Map("pieces", "pieces", Column("piece", "code", needed=True), _COUNT),),
    "components": (
        _Map("counts", "count", Column("engine_type", "code", needed=True), _COUNT),
        _Map("components, sources", "sources", Column("field", "code", needed=True), _SOURCE),
    ),
}
"""By kind, the columns that hold pairs."""


@cache
def sheets() -> tuple[SheetLayout, ...]:
    """Every sheet, each kind's own before those of its lines."""
    return tuple(sheet for shape in SHAPES.values() for sheet in _sheets_of(shape))


def sheets_of(kind: str) -> tuple[SheetLayout, ...]:
    return tuple(sheet for sheet in sheets() if sheet.kind == kind)


@cache
def layout_mark() -> str:
    """Tells the sheets of one release from those of another."""
    told = repr([(sheet.name, [column.head for column in sheet.columns]) for sheet in sheets()])
    return hashlib.sha256(told.encode()).hexdigest()[:16]


def _sheets_of(shape: Shape) -> Iterable[SheetLayout]:
    maps = MAPS.get(shape.kind, ())
    paths = {each.path for each in maps}
    keys = [key for key, path in shape.columns.items() if path not in paths]
    keys.sort(key=lambda key: key != "code")
    columns = tuple(column_of(shape.model, key) for key in (*keys, *shape.packed))
    yield SheetLayout(
        shape.kind.replace("_", " "), shape.kind, columns, once=(("code",), *_once(shape.model, ""))
    )
    for lines in shape.lines:
        owner = column_of(lines.model, lines.owner)
        name = NAMES.get(lines.model.__name__, str(lines.model._meta.verbose_name_plural))
        columns = (owner, *(column_of(lines.model, key) for key in lines.columns))
        yield SheetLayout(
            name, shape.kind, columns, lines.split, lines.join,
            _once(lines.model, lines.owner), _order(lines.model),
        )  # fmt: skip
    for each in maps:
        owner = Column(str(shape.model._meta.verbose_name).replace(" ", "_"), "code", needed=True)
        both = (owner.key, each.key.key)
        yield SheetLayout(
            each.name, shape.kind, (owner, each.key, each.value), each.split, each.join, (both,)
        )


def column_of(model: type[models.Model], key: str) -> Column:
    """The column of a table, with what its field allows."""
    field = model._meta.get_field(key.removesuffix("_id") if _is_key(model, key) else key)
    assert isinstance(field, models.Field)
    needed = not field.null and not field.blank and key not in PLACES
    blank = None if field.null else "" if isinstance(field, models.CharField | models.TextField) else None
    if isinstance(field, models.JSONField):
        blank = field.get_default() if field.has_default() else None
    choices = tuple(str(value) for value, _ in field.flatchoices)
    return Column(
        key, _sort(field, key), needed, blank, choices,
        field.max_length or 0, getattr(field, "decimal_places", None) or 0,
    )  # fmt: skip


def _is_key(model: type[models.Model], key: str) -> bool:
    """Whether a column holds the key of another entry."""
    if not key.endswith("_id"):
        return False
    try:
        return bool(model._meta.get_field(key.removesuffix("_id")).is_relation)
    except FieldDoesNotExist:
        return False


def _sort(field: models.Field[Any, Any], key: str) -> Sort:
    if isinstance(field, models.ForeignKey) or key == "code":
        return "code"
    sorts: tuple[tuple[type[models.Field[Any, Any]], Sort], ...] = (
        (models.BooleanField, "yes"),
        (models.FloatField, "number"),
        (models.DecimalField, "decimal"),
        (models.IntegerField, "whole"),
        (models.JSONField, "json"),
    )
    return next((sort for kind, sort in sorts if isinstance(field, kind)), "text")


def _once(model: type[models.Model], owner: str) -> tuple[tuple[str, ...], ...]:
    """What the table allows once only. Where its lines stand is counted anew, so that is left out."""
    found = [
        tuple(_attribute(model, name) for name in each.fields)
        for each in model._meta.constraints
        if isinstance(each, models.UniqueConstraint) and each.condition is None
    ]
    if not owner:
        alone = (field for field in model._meta.concrete_fields if field.unique and not field.primary_key)
        found += [(field.attname,) for field in alone]
    return tuple(keys for keys in found if not set(keys) & set(PLACES))


def _attribute(model: type[models.Model], name: str) -> str:
    field = model._meta.get_field(name)
    return field.attname if isinstance(field, models.Field) else name


def _order(model: type[models.Model]) -> tuple[str, ...]:
    """In which order the lines of an entry are read."""
    return tuple(
        ("-" if name.startswith("-") else "") + _attribute(model, name.lstrip("-"))
        for name in model._meta.ordering or ()
        if isinstance(name, str)
    )
