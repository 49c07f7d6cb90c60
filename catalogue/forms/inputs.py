"""What a card is made of: inputs, groups of them, grids of rows, and the sections they stand in.

A card is read twice: to show an entry with where each value came from, and to change it. The path of
an input says where its value lies in the row, steps apart by colons.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from catalogue.calc.rows import CatalogueRows

Sort = Literal[
    "text", "long", "lines", "number", "whole", "money", "hours", "choice", "tick", "codes", "ways"
]
Choices = Sequence[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class Input:
    """One value."""

    path: str
    label: str
    sort: Sort = "text"
    unit: str = ""
    says: str = ""
    choices: Choices | Callable[[CatalogueRows], Choices] = ()
    target: str = ""
    """Kind of entry that its codes, or its choice, name."""
    required: bool = False
    fixed: bool = False
    """Set once, when the entry is made."""
    source: str = ""
    """Path of where the value came from."""
    width: int = 3

    @property
    def field(self) -> str:
        """The field of the row in which its value lies."""
        return self.path.split(":")[0]


@dataclass(frozen=True, slots=True)
class Group:
    """Values that are read together: a band, one for each engine type, one for each cause of wear."""

    label: str
    style: Literal["band", "types", "causes", "each"]
    inputs: tuple[Input, ...] = ()
    each_type: Input | None = None
    """The input that comes once for each engine type, its path ended by the type's code."""
    unit: str = ""
    says: str = ""
    source: str = ""

    def spread(self, rows: CatalogueRows) -> tuple[Input, ...]:
        """Its inputs on this catalogue."""
        if self.each_type is None:
            return self.inputs
        return tuple(
            replace(self.each_type, path=f"{self.each_type.path}:{kind.code}", label=kind.name)
            for kind in rows.engine_types
        )

    @property
    def field(self) -> str:
        return (self.each_type or self.inputs[0]).field


@dataclass(frozen=True, slots=True)
class Grid:
    """Rows of the same inputs, as many as one likes."""

    path: str
    label: str
    one: str
    columns: tuple[Input, ...]
    says: str = ""
    source: str = ""
    lies: Literal["rows", "map", "map_by_type"] = "rows"
    """How it lies in the row: as a list, as a map from the first column to the second, or as such a map
    for each engine type."""

    @property
    def field(self) -> str:
        return self.path.split(":")[0]


Item = Input | Group | Grid


@dataclass(frozen=True, slots=True)
class Section:
    """A block of a card."""

    title: str
    items: tuple[Item, ...]
    says: str = ""


@dataclass(frozen=True, slots=True)
class Card:
    """All that is shown and changed of one kind of entry."""

    kind: str
    sections: tuple[Section, ...]
    optional: tuple[str, ...] = ()
    """Paths of nested values that are absent as a whole where nothing is typed in them."""

    def items(self) -> list[Item]:
        return [item for section in self.sections for item in section.items]


def band(path: str, label: str, unit: str = "", source: str = "", **more: object) -> Group:
    """Low, typical and high of one figure."""
    names = (("low", "Low"), ("typical", "Typical"), ("high", "High"))
    sort: Sort = "money" if more.pop("money", False) else "number"
    required = bool(more.pop("required", False))
    inputs = tuple(
        Input(f"{path}:{name}", words, sort, unit, required=required, width=2) for name, words in names
    )
    return Group(label, "band", inputs, unit=unit, source=source)


def causes(path: str, label: str, *, says: str = "", source: str = "", required: bool = False) -> Group:
    """One figure for each cause of wear."""
    names = ("inertia", "gas", "heat", "shifts", "launches", "dirt", "time")
    inputs = tuple(
        Input(f"{path}:{name}", name.capitalize(), "number", required=required, width=2) for name in names
    )
    return Group(label, "causes", inputs, says=says, source=source)


def by_type(path: str, label: str, sort: Sort, *, unit: str = "", says: str = "", source: str = "") -> Group:
    """One figure for each engine type; blank where the type has none."""
    return Group(
        label, "types", each_type=Input(path, "", sort, unit, width=2), unit=unit, says=says, source=source
    )


NAME = Input("name", "Name", required=True, width=6)
NOTE = Input("note", "Note", "long", width=12)
SOURCE = Input("source", "Where it comes from", "long", says="S18 names a page of the register.", width=12)


def code_input(label: str = "Code", path: str = "code") -> Input:
    return Input(path, label, required=True, fixed=True, says="Never changes: quotes refer to it.", width=3)


def codes(path: str, label: str, target: str, source: str = "") -> Input:
    """Codes of other entries, with commas between."""
    return Input(path, label, "codes", target=target, source=source, width=6)


def entries_of(kind: str) -> Callable[[CatalogueRows], Choices]:
    """Code and name of every entry of a kind."""

    def choices(rows: CatalogueRows) -> Choices:
        return [(row.code, getattr(row, "name", row.code)) for row in getattr(rows, kind)]

    return choices
