"""What the page of an entry shows: each value in words, and beside it where the value came from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.urls import reverse

from catalogue.calc.money import round_half_up
from catalogue.calc.numbers import figure
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.sources import in_words, note_in_words
from catalogue.forms.cards import Card
from catalogue.forms.inputs import Grid, Group, Input, Item
from catalogue.forms.values import at, grid_rows, is_blank
from catalogue.models import OwnValue


@dataclass(frozen=True, slots=True)
class Piece:
    """Words, and the page that they lead to."""

    text: str
    url: str = ""


Line = tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """One value: what it is, what it says, and where it came from."""

    label: str
    lines: tuple[Line, ...]
    source: str
    own: OwnValue | None = None
    shipped: tuple[Line, ...] = ()
    """What the catalogue ships there, where the workshop has a value of its own."""


@dataclass(frozen=True, slots=True)
class Teller:
    """Tells the values of one entry."""

    rows: CatalogueRows
    dump: Mapping[str, Any]
    owned: Mapping[str, OwnValue]

    def told(self, card: Card) -> list[tuple[Any, list[Told]]]:
        """The sections of the card, each with the values that there are."""
        found = []
        for section in card.sections:
            values = [told for item in section.items if (told := self._item(item)) is not None]
            if values:
                found.append((section, values))
        return found

    def _item(self, item: Item) -> Told | None:
        lines = self.lines(item, self.dump)
        own = self.owned.get(item.field)
        shipped: tuple[Line, ...] = ()
        if own is not None:
            shipped = self.lines(item, {item.field: own.shipped}) or ((Piece("nothing"),),)
            lines = lines or ((Piece("nothing"),),)
        if not lines:
            return None
        return Told(item.label, lines, self._source(item), own, shipped if shipped != lines else ())

    def _source(self, item: Item) -> str:
        titles = {row.code: row.title for row in self.rows.sources}
        path = getattr(item, "source", "")
        return in_words(str(at(self.dump, path) or ""), titles) if path else ""

    def lines(self, item: Item, dump: Mapping[str, Any]) -> tuple[Line, ...]:
        """What an item says of a row, in lines; none where it says nothing."""
        if isinstance(item, Grid):
            return tuple(self._row(item, line) for line in grid_rows(item, dump))
        if isinstance(item, Group):
            return self._group(item, dump)
        return self._value(item, at(dump, item.path))

    def _row(self, grid: Grid, line: Mapping[str, Any]) -> Line:
        """One row of a grid: its first value bare, the others by name."""
        pieces: list[Piece] = []
        for column in grid.columns:
            for value in self._value(column, line.get(column.path)):
                if pieces and len(value) == 1 and not value[0].url:
                    pieces.append(Piece(f"{column.label.lower()}: {value[0].text}"))
                else:
                    pieces += value
        return tuple(pieces)

    def _group(self, group: Group, dump: Mapping[str, Any]) -> tuple[Line, ...]:
        asked = group.spread(self.rows)
        values = [(one, at(dump, one.path)) for one in asked]
        given = [(one, value) for one, value in values if not is_blank(value)]
        if not given:
            return ()
        if group.style == "band":
            return ((Piece(self._band({one.path.split(":")[-1]: value for one, value in given}, group)),),)
        if group.style == "causes" and group.inputs[0].path.startswith("drivers"):
            given.sort(key=lambda pair: -float(pair[1]))
        return tuple(
            (Piece(f"{one.label}: "), *line) for one, value in given for line in self._value(one, value)
        )

    def _band(self, values: Mapping[str, Any], group: Group) -> str:
        low, typical, high = (
            self._figure(group.inputs[0], values.get(name)) for name in ("low", "typical", "high")
        )
        if not low or not high:
            return f"{typical} {group.unit}".strip()
        return f"{typical} {group.unit}".strip() + f", from {low} to {high}"

    def _figure(self, asked: Input, value: Any) -> str:
        if asked.sort == "money" and value is not None:
            return f"{round_half_up(Decimal(str(value))):,} {self.rows.currency}"
        return figure(value if isinstance(value, int | float | Decimal | None) else Decimal(str(value)))

    def _value(self, asked: Input, value: Any) -> tuple[Line, ...]:
        if asked.sort == "tick":
            return ((Piece("yes"),),) if value else ()
        if is_blank(value):
            return ()
        if asked.sort in ("number", "whole", "hours", "money"):
            return ((Piece(f"{self._figure(asked, value)} {asked.unit}".strip()),),)
        if asked.sort == "choice":
            return ((self._chosen(asked, value),),)
        if asked.sort == "codes":
            return (tuple(self._links(asked.target, value)),)
        if asked.sort == "ways":
            return tuple(tuple(self._links(asked.target, way)) for way in value)
        return tuple((Piece(text),) for text in self._texts(asked, value))

    def _texts(self, asked: Input, value: Any) -> Sequence[str]:
        titles = {row.code: row.title for row in self.rows.sources}
        texts = [str(text) for text in value] if isinstance(value, list | tuple) else [str(value)]
        if "source" in asked.path:
            return [in_words(text, titles) for text in texts]
        return [note_in_words(text, titles) for text in texts]

    def _chosen(self, asked: Input, value: str) -> Piece:
        choices = asked.choices(self.rows) if callable(asked.choices) else asked.choices
        words = dict(choices).get(value, value)
        return Piece(words, url_of(asked.target, value) if asked.target else "")

    def _links(self, target: str, codes: Iterable[str]) -> list[Piece]:
        names = {row.code: getattr(row, "name", row.code) for row in getattr(self.rows, target)}
        return [Piece(names.get(code, code), url_of(target, code)) for code in codes]


def url_of(kind: str, code: str) -> str:
    """The page of an entry."""
    return reverse("catalogue:entry", args=[kind, code])


def labels(card: Card) -> dict[str, str]:
    """What each field of the row is called on its card, the first name where it has several."""
    found: dict[str, str] = {}
    for item in card.items():
        found.setdefault(item.field, item.label)
    return found
