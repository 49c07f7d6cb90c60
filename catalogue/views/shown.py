"""What the page of an entry shows: each value in words, and beside it where the value came from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from django.urls import reverse

from catalogue.calc.money import round_half_up
from catalogue.calc.numbers import said_figure
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.said import say, say_figure, say_inside
from catalogue.calc.sources import in_words, note_in_words
from catalogue.forms.cards import Card
from catalogue.forms.inputs import Grid, Group, Input, Item
from catalogue.forms.values import at, grid_rows, is_blank
from catalogue.models import OwnValue

HEADINGS = frozenset({"code", "number", "name", "title"})
"""Paths that the head of the page says already."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Words, the page that they lead to, and what is said before them."""

    text: str
    url: str = ""
    lead: str = ""


Line = tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class ShownValue:
    """One value: what it is, what it says, and where it came from."""

    label: str
    lines: tuple[Line, ...]
    source: str
    own: OwnValue | None = None
    shipped: tuple[Line, ...] = ()
    """What the catalogue ships there, where the workshop has a value of its own."""
    heads: tuple[str, ...] = ()
    """Heads of the columns, where the value is rows of several values."""
    rows: tuple[tuple[tuple[str, Line], ...], ...] = ()
    """Each cell with the head of its column, which a phone shows beside it."""


@dataclass(frozen=True, slots=True)
class Teller:
    """Tells the values of one entry."""

    rows: CatalogueRows
    dump: Mapping[str, Any]
    owned: Mapping[str, OwnValue]

    def told(self, card: Card) -> list[tuple[Any, list[ShownValue], list[ShownValue]]]:
        """The sections of the card, each with its single values and those that are rows of several."""
        beside = {getattr(item, "source", "") for item in card.items()}
        found = []
        for section in card.sections:
            items = [item for item in section.items if not _said_elsewhere(item, beside)]
            values = [told for item in items if (told := self._item(item)) is not None]
            if values:
                single = [told for told in values if not told.heads or told.own]
                found.append((section, single, [told for told in values if told.heads]))
        return found

    def _item(self, item: Item) -> ShownValue | None:
        lines = self.lines(item, self.dump)
        own = self.owned.get(item.field)
        shipped: tuple[Line, ...] = ()
        if own is not None:
            nothing = ((Piece(say("nothing")),),)
            shipped = self.lines(item, {item.field: own.shipped}) or nothing
            lines = lines or nothing
        if not lines:
            return None
        told = ShownValue(
            str(item.label), lines, self._source(item), own, shipped if shipped != lines else ()
        )
        return self._as_rows(item, told) if isinstance(item, Grid) else told

    def _as_rows(self, grid: Grid, told: ShownValue) -> ShownValue:
        """The same with its rows laid out under heads; columns in which nothing stands are left out."""
        given = grid_rows(grid, self.dump)
        columns = [one for one in grid.columns if any(not is_blank(row.get(one.path)) for row in given)]
        rows = tuple(
            tuple((str(one.label), self._in_one_line(self._value(one, row.get(one.path)))) for one in columns)
            for row in given
        )
        return replace(told, heads=tuple(str(one.label) for one in columns), rows=rows)

    def _in_one_line(self, lines: tuple[Line, ...]) -> Line:
        return tuple(piece for line in lines for piece in line)

    def _source(self, item: Item) -> str:
        path = getattr(item, "source", "")
        return in_words(str(at(self.dump, path) or ""), self._titles()) if path else ""

    def _titles(self) -> dict[str, str]:
        return {row.code: row.title for row in self.rows.sources}

    def lines(self, item: Item, dump: Mapping[str, Any]) -> tuple[Line, ...]:
        """What an item says of a row, in lines; none where it says nothing."""
        if isinstance(item, Grid):
            return tuple(self._row(item, line) for line in grid_rows(item, dump))
        if isinstance(item, Group):
            return self._group(item, dump)
        return self._value(item, at(dump, item.path))

    def _row(self, grid: Grid, line: Mapping[str, Any]) -> Line:
        return self._in_one_line(
            tuple(value for one in grid.columns for value in self._value(one, line.get(one.path)))
        )

    def _group(self, group: Group, dump: Mapping[str, Any]) -> tuple[Line, ...]:
        """Its values in one line, each after its name; a band as one phrase."""
        asked = group.spread(self.rows)
        values = [(one, at(dump, one.path)) for one in asked if not _is_source(one)]
        given = [(one, value) for one, value in values if not is_blank(value)]
        if not given:
            return ()
        if group.style == "band":
            return ((Piece(self._band({one.path.split(":")[-1]: value for one, value in given}, group)),),)
        if group.style == "causes" and group.field == "drivers":
            given.sort(key=lambda pair: -float(pair[1]))
        pieces: list[Piece] = []
        for one, value in given:
            first, *more = self._in_one_line(self._value(one, value))
            name = str(one.label) if group.style == "types" else say_inside(str(one.label))
            pieces += [replace(first, lead=f"{name} "), *more]
        return (tuple(pieces),)

    def _band(self, values: Mapping[str, Any], group: Group) -> str:
        low, typical, high = (
            self._figure(group.inputs[0], values.get(name)) for name in ("low", "typical", "high")
        )
        usual = f"{typical} {group.unit}".strip()
        if not low or not high:
            return usual
        return say("{typical}, from {low} to {high}", typical=usual, low=low, high=high)

    def _figure(self, asked: Input, value: Any) -> str:
        if asked.sort == "money" and value is not None:
            return f"{say_figure(round_half_up(Decimal(str(value))), 2)} {self.rows.currency}"
        if value is None:
            return ""
        return said_figure(value if isinstance(value, int | float | Decimal) else Decimal(str(value)))

    def _value(self, asked: Input, value: Any) -> tuple[Line, ...]:
        if asked.sort == "tick":
            return ((Piece(say("yes")),),) if value else ()
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
        if asked.path in ("group", "equals"):
            value = say(value.replace("_", " "))
        return tuple((Piece(text),) for text in self._texts(asked, value))

    def _texts(self, asked: Input, value: Any) -> Sequence[str]:
        titles = self._titles()
        texts = [str(text) for text in value] if isinstance(value, list | tuple) else [str(value)]
        if "source" in asked.path:
            return [in_words(text, titles) for text in texts]
        return [note_in_words(say(text) if text else text, titles) for text in texts]

    def _chosen(self, asked: Input, value: str) -> Piece:
        choices = asked.choices(self.rows) if callable(asked.choices) else asked.choices
        words = dict(choices).get(value, value)
        return Piece(str(words), url_of(asked.target, value) if asked.target else "")

    def _links(self, target: str, codes: Iterable[str]) -> list[Piece]:
        names = {row.code: getattr(row, "name", row.code) for row in getattr(self.rows, target)}
        return [Piece(names.get(code, code), url_of(target, code)) for code in codes]


def _is_source(asked: Input) -> bool:
    return asked.path.split(":")[-1] in ("source", "life_source", "geometry_source", "power_source")


def _said_elsewhere(item: Item, beside: Set[str]) -> bool:
    """Whether the head of the page, or the column beside another value, says it already."""
    return isinstance(item, Input) and (item.path in HEADINGS or (_is_source(item) and item.path in beside))


def url_of(kind: str, code: str) -> str:
    """The page of an entry."""
    return reverse("catalogue:entry", args=[kind, code])


def labels(card: Card) -> dict[str, str]:
    """What each field of the row is called on its card, the first name where it has several."""
    found: dict[str, str] = {}
    for item in card.items():
        found.setdefault(item.field, str(item.label))
    return found
