"""Collects what was typed into a card under the paths of the request, and where each value was typed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from quotes.forms.fields import CardForm, figure

Path = tuple[str, ...]
ALIASES = {"from": "start", "to": "end", "class": "class_code"}
"""The request's outside names, and the names they have inside."""

TYPES = frozenset({"Observed"})
"""Types that a path passes through where one of several may stand."""


def path_of(parts: Iterable[str | int]) -> Path:
    """A path with one spelling: indices as text, inside names, no names of types."""
    return tuple(ALIASES.get(str(part), str(part)) for part in parts if part not in TYPES)


@dataclass(frozen=True, slots=True)
class Place:
    """A field of the card."""

    form: CardForm
    name: str

    @property
    def label(self) -> str:
        return str(self.form[self.name].label)

    @property
    def typed(self) -> str:
        return self.form.typed(self.name)


@dataclass(slots=True)
class Asked:
    """What was asked for, as a tree of plain values, and where each value was typed."""

    values: dict[str, Any] = field(default_factory=dict)
    places: dict[Path, Place] = field(default_factory=dict)

    def mark(self, path: Iterable[str | int], form: CardForm, name: str) -> None:
        """Say that a fault at `path` belongs to this field."""
        self.places[path_of(path)] = Place(form, name)

    def place(self, path: Iterable[str | int]) -> Place | None:
        """The field for a path, or for the nearest thing that holds it."""
        wanted = path_of(path)
        while wanted:
            if found := self.places.get(wanted):
                return found
            wanted = wanted[:-1]
        return None


def filled(form: CardForm, names: dict[str, str], figures: frozenset[str] = frozenset()) -> dict[str, str]:
    """What was typed, by the request's names; fields left blank are left out."""
    told: dict[str, str] = {}
    for name, field_name in names.items():
        if typed := form.typed(field_name):
            told[name] = figure(typed) if name in figures else typed
    return told
