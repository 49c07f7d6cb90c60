"""The texts of the catalogue that a reader meets, and its rows in the language in hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import BaseModel

from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.habits import texts_of_habit
from catalogue.calc.rows.kinds import Row
from catalogue.calc.said import say
from catalogue.calc.sources import said_parts
from catalogue.calc.unit_words import for_cylinders

SHOWN: Mapping[str, tuple[str, ...]] = {
    "suppliers": ("name",),
    "engine_types": ("name",),
    "components": ("name", "rider_hazards"),
    "operations": ("name",),
    "machine_work": ("name",),
    "parts": ("name",),
    "tiers": ("name", "purpose", "promise", "power_note", "changes", "changes_by_type"),
    "load_laws": ("name",),
    "duties": ("name", "matters", "oil_with_gearbox_why", "oil_without_gearbox_why"),
    "findings": ("name", "cause", "tell_customer"),
    "events": ("name",),
    "limits": ("quantity",),
}
"""By kind of row."""
NOTED: Mapping[str, tuple[str, ...]] = {
    "engine_types": ("note",),
    "components": ("failure_modes", "measured", "note"),
    "operations": ("note",),
    "machine_work": ("note",),
    "parts": ("unit", "note"),
    "tiers": ("left_out_unless_opened",),
    "load_laws": ("note",),
    "events": ("note",),
    "limits": ("note",),
    "facts": ("topic", "statement"),
}
"""What only a card shows, and says there. Titles of sources are cited as they are, and formulas stay."""
INSIDE = ("what", "rule", "limit", "note")
"""The texts of a row that stands inside of another."""
READ_BY_RULES = frozenset({"limits"})
"""The names of their quantities say where they are measured, so they are said only where they are shown."""


def texts(rows: CatalogueRows) -> Iterator[str]:
    """Every text that a reader meets."""
    for kind, fields in (*SHOWN.items(), *NOTED.items()):
        for row in getattr(rows, kind):
            for field in fields:
                yield from _texts(getattr(row, field))
    named = {row.code: row.name for row in rows.engine_types} | {row.code: row.name for row in rows.tiers}
    for habit in rows.policies:
        yield from texts_of_habit(habit.code, habit.value, named)
    yield from _sources(rows)
    yield from (code.replace("_", " ") for code in sorted(_codes(rows)))
    yield from sorted({for_cylinders(row.unit, count) for row in rows.parts for count in (1, 2) if row.unit})


def _sources(value: Any, name: str = "") -> Iterator[str]:
    """What fields say of where their values come from."""
    if isinstance(value, BaseModel):
        for field, inner in value:
            yield from _sources(inner, field)
    elif isinstance(value, str):
        yield from said_parts(value) if "source" in name else ()
    elif isinstance(value, Mapping | tuple):
        for inner in value.values() if isinstance(value, Mapping) else value:
            yield from _sources(inner, name)


def _codes(rows: CatalogueRows) -> set[str]:
    """Codes that are shown as words: groups of components, pieces that are counted, what a tier changes."""
    return {
        *(row.group for row in rows.components),
        *(piece for row in rows.engine_types for piece in row.pieces),
        *(what for row in rows.tiers for what in row.changes),
    }


def in_words(rows: CatalogueRows) -> CatalogueRows:
    """The rows with their texts in the language in hand; what the workshop wrote itself stays as it is."""
    said = {
        kind: tuple(
            row.model_copy(update={field: _said(getattr(row, field)) for field in fields})
            for row in getattr(rows, kind)
        )
        for kind, fields in SHOWN.items()
        if kind not in READ_BY_RULES
    }
    return rows.model_copy(update=said)


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield from filter(None, (value,))
    elif isinstance(value, Row):
        for field in INSIDE:
            yield from _texts(getattr(value, field, ""))
    elif isinstance(value, Mapping):
        for each in value.values():
            yield from _texts(each)
    else:
        for each in value or ():
            yield from _texts(each)


def _said(value: Any) -> Any:
    if isinstance(value, str):
        return say(value) if value else value
    if isinstance(value, Mapping):
        return {key: _said(each) for key, each in value.items()}
    return tuple(_said(each) for each in value) if value else value
