"""What a card is made of: inputs, groups of them, grids of rows, and the sections they stand in.

A card is read twice: to show an entry with where each value came from, and to change it. The path of
an input says where its value lies in the row, steps apart by colons.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from django.utils.translation import gettext_lazy as _

from catalogue.calc.rows import CatalogueRows

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

Sort = Literal[
    "text", "long", "lines", "number", "whole", "money", "hours", "choice", "tick", "codes", "ways"
]
Choices = Sequence[tuple[str, "StrOrPromise"]]


@dataclass(frozen=True, slots=True)
class Input:
    """One value."""

    path: str
    label: StrOrPromise
    sort: Sort = "text"
    unit: StrOrPromise = ""
    says: StrOrPromise = ""
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

    label: StrOrPromise
    style: Literal["band", "types", "causes", "each"]
    inputs: tuple[Input, ...] = ()
    each_type: Input | None = None
    """The input that comes once for each engine type, its path ended by the type's code."""
    unit: StrOrPromise = ""
    says: StrOrPromise = ""
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
    label: StrOrPromise
    one: StrOrPromise
    columns: tuple[Input, ...]
    says: StrOrPromise = ""
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
    """A block of a card. One of notes needs no head over them."""

    title: StrOrPromise
    items: tuple[Item, ...]
    says: StrOrPromise = ""

    @property
    def is_of_notes(self) -> bool:
        return self.title == NOTE.label


@dataclass(frozen=True, slots=True)
class Card:
    """All that is shown and changed of one kind of entry."""

    kind: str
    sections: tuple[Section, ...]
    optional: tuple[str, ...] = ()
    """Paths of nested values that are absent as a whole where nothing is typed in them."""

    def items(self) -> list[Item]:
        return [item for section in self.sections for item in section.items]


CAUSES: dict[str, StrOrPromise] = {
    "inertia": _("Inertia"),
    "gas": _("Gas"),
    "heat": _("Heat"),
    "shifts": _("Shifts"),
    "launches": _("Launches"),
    "dirt": _("Dirt"),
    "time": _("Time"),
}
"""What wears an engine, as the figures of it are called."""


def band(path: str, label: StrOrPromise, unit: StrOrPromise = "", source: str = "", **more: object) -> Group:
    """Low, typical and high of one figure."""
    names = (("low", _("Low")), ("typical", _("Typical")), ("high", _("High")))
    sort: Sort = "money" if more.pop("money", False) else "number"
    required = bool(more.pop("required", False))
    inputs = tuple(
        Input(f"{path}:{name}", words, sort, unit, required=required, width=2) for name, words in names
    )
    return Group(label, "band", inputs, unit=unit, source=source)


def causes(
    path: str, label: StrOrPromise, *, says: StrOrPromise = "", source: str = "", required: bool = False
) -> Group:
    """One figure for each cause of wear."""
    inputs = tuple(
        Input(f"{path}:{name}", words, "number", required=required, width=2) for name, words in CAUSES.items()
    )
    return Group(label, "causes", inputs, says=says, source=source)


def by_type(
    path: str,
    label: StrOrPromise,
    sort: Sort,
    *,
    unit: StrOrPromise = "",
    says: StrOrPromise = "",
    source: str = "",
) -> Group:
    """One figure for each engine type; blank where the type has none."""
    return Group(
        label, "types", each_type=Input(path, "", sort, unit, width=2), unit=unit, says=says, source=source
    )


NAME = Input("name", _("Name"), required=True, width=6)
NOTE = Input("note", _("Note"), "long", width=12)
SOURCE = Input(
    "source", _("Where it comes from"), "long", says=_("S18 names a page of the register."), width=12
)


CODE: StrOrPromise = _("Code")


def code_input(label: StrOrPromise = CODE, path: str = "code") -> Input:
    return Input(
        path, label, required=True, fixed=True, says=_("Never changes: quotes refer to it."), width=3
    )


def codes(path: str, label: StrOrPromise, target: str, source: str = "") -> Input:
    """Codes of other entries, with commas between."""
    return Input(path, label, "codes", target=target, source=source, width=6)


def entries_of(kind: str) -> Callable[[CatalogueRows], Choices]:
    """Code and name of every entry of a kind."""

    def choices(rows: CatalogueRows) -> Choices:
        return [(row.code, getattr(row, "name", row.code)) for row in getattr(rows, kind)]

    return choices
