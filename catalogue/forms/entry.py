"""The form of one entry: its card with the present values, and what was typed in it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from catalogue.calc.fault import Fault
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.said import say
from catalogue.forms.cards import Card
from catalogue.forms.fields import LONG, field_of
from catalogue.forms.inputs import Grid, Input, Item
from catalogue.forms.values import at, grid_rows, grid_value, inputs_of, is_blank, put, without_blanks
from catalogue.models.choices import KINDS

BLANK_ROWS = 2
"""Empty rows at the end of each grid, to fill in more."""
MOST_ROWS = 60
"""More rows than this in one grid are nobody's typing."""


@dataclass(frozen=True, slots=True)
class EntryCell:
    """One field on the page."""

    field: BoundField
    asked: Input


@dataclass(frozen=True, slots=True)
class EntryBlock:
    """One item of a section on the page: cells, in rows where it is a grid."""

    item: Item
    cells: tuple[EntryCell, ...] = ()
    rows: tuple[tuple[EntryCell, ...], ...] = ()

    @property
    def legend(self) -> str:
        return "" if isinstance(self.item, Input) else str(self.item.label)


class EntryForm(forms.Form):
    """The card of one entry as fields. `values()` gives the row's values, once it is valid."""

    version = forms.IntegerField(widget=forms.HiddenInput, required=False)
    from_where = forms.CharField(
        label=_("Where do the new figures come from?"),
        help_text=_("Shown beside every value you change: your own record, a manual, a price file."),
        max_length=LONG,
        required=False,
    )

    def __init__(
        self,
        card: Card,
        rows: CatalogueRows,
        *,
        dump: Mapping[str, Any],
        version: int | None,
        data: Mapping[str, Any] | None = None,
    ) -> None:
        self.card, self.rows, self.is_new = card, rows, version is None
        initial: dict[str, Any] = {"version": version}
        super().__init__(data, initial=initial, auto_id="id_%s")
        self.counts: dict[str, int] = {}
        for item in card.items():
            if isinstance(item, Grid):
                self._add_grid(item, grid_rows(item, dump))
            else:
                for asked in self._asked(item):
                    self._add(asked.path, asked, at(dump, asked.path))

    def _asked(self, item: Item) -> Iterator[Input]:
        """The inputs that are open: what is set once is not asked again."""
        return (asked for asked in inputs_of(item, self.rows) if self.is_new or not asked.fixed)

    def _add(self, name: str, asked: Input, value: Any) -> None:
        self.fields[name] = field_of(asked, self.rows)
        self.initial[name] = value

    def _add_grid(self, grid: Grid, present: list[dict[str, Any]]) -> None:
        count = len(present) + BLANK_ROWS
        if self.is_bound:
            count = min(_rows_typed(grid, self.data), MOST_ROWS)
        self.counts[grid.path] = count
        for number in range(count):
            line = present[number] if number < len(present) else {}
            for column in grid.columns:
                # A blank row is no fault: whether a value is missing is looked at once the row is known.
                self._add(f"{grid.path}:{number}:{column.path}", column, line.get(column.path))
                self.fields[f"{grid.path}:{number}:{column.path}"].required = False

    def sections(self) -> list[tuple[Any, list[EntryBlock]]]:
        """The sections of the card with their fields, for the page."""
        found = []
        for section in self.card.sections:
            blocks = [self._block(item) for item in section.items]
            if filled := [block for block in blocks if block.cells or block.rows]:
                found.append((section, filled))
        return found

    def _block(self, item: Item) -> EntryBlock:
        if not isinstance(item, Grid):
            return EntryBlock(item, tuple(EntryCell(self[asked.path], asked) for asked in self._asked(item)))
        rows = (
            tuple(EntryCell(self[f"{item.path}:{number}:{column.path}"], column) for column in item.columns)
            for number in range(self.counts[item.path])
        )
        return EntryBlock(item, rows=tuple(rows))

    def targets(self) -> list[tuple[str, list[tuple[str, str]]]]:
        """The kinds that codes are asked of, with every code and name, to look one up."""
        kinds = dict.fromkeys(
            asked.target
            for item in self.card.items()
            for asked in (item.columns if isinstance(item, Grid) else inputs_of(item, self.rows))
            if asked.sort in ("codes", "ways")
        )
        return [
            (str(KINDS[kind]), [(row.code, row.name) for row in getattr(self.rows, kind)]) for kind in kinds
        ]

    def values(self) -> dict[str, Any]:
        """What was typed, as the row's nested values."""
        dump: dict[str, Any] = {}
        for item in self.card.items():
            if isinstance(item, Grid):
                put(dump, item.path, grid_value(item, [line for number, line in self._lines(item)]))
            else:
                for asked in self._asked(item):
                    put(dump, asked.path, _plain(asked, self.cleaned_data.get(asked.path)))
        return without_blanks(self.card, dump)

    def _lines(self, grid: Grid) -> list[tuple[int, dict[str, Any]]]:
        """The rows of a grid in which something was typed, with their numbers on the page."""
        lines = []
        for number in range(self.counts[grid.path]):
            line = {
                column.path: _plain(column, self.cleaned_data.get(f"{grid.path}:{number}:{column.path}"))
                for column in grid.columns
            }
            if not is_blank(line):
                lines.append((number, {key: value for key, value in line.items() if value is not None}))
        return lines

    def clean(self) -> dict[str, Any]:
        """In a row of a grid in which something was typed, what is needed must be there."""
        for grid in (item for item in self.card.items() if isinstance(item, Grid)):
            for number, line in self._lines(grid):
                for column in grid.columns:
                    name = f"{grid.path}:{number}:{column.path}"
                    if column.required and is_blank(line.get(column.path)) and name not in self.errors:
                        self.add_error(name, say("This is missing."))
        return self.cleaned_data

    def add_faults(self, faults: Iterable[Fault]) -> None:
        """Puts each fault at its field, or over the card where it has none here."""
        for fault in faults:
            name = self._name_of(fault.field)
            if name:
                label = self[name].label or say("This")
                self.add_error(name, f"{label}: {fault.reason}.")
            else:
                self.add_error(None, f"{fault.entry}, {fault.field.replace('_', ' ')}: {fault.reason}.")

    def _name_of(self, field: str) -> str | None:
        """The field of the page for a fault at a dotted place of the row."""
        steps = self._on_the_page(field.split(","), field)
        for end in range(len(steps), 0, -1):
            wanted = ":".join(steps[:end])
            if wanted in self.fields:
                return wanted
            inside = [name for name in self.fields if name.startswith(f"{wanted}:")]
            if inside:
                return inside[0]
        return None

    def _on_the_page(self, named: list[str], field: str) -> list[str]:
        """The steps to a place; the row of a grid gets its number on the page back."""
        steps = named[0].split(".") if len(named) > 1 else field.split(".")
        grids = {item.path: item for item in self.card.items() if isinstance(item, Grid)}
        if len(steps) > 1 and steps[0] in grids and steps[1].isdigit():
            numbers = [number for number, _ in self._lines(grids[steps[0]])]
            if int(steps[1]) < len(numbers):
                steps[1] = str(numbers[int(steps[1])])
        return steps


def _rows_typed(grid: Grid, data: Mapping[str, Any]) -> int:
    """How many rows of a grid the page sent back."""
    typed = re.compile(rf"{re.escape(grid.path)}:(\d{{1,3}}):")
    numbers = [int(found[1]) for key in data if (found := typed.match(key))]
    return max([*numbers, -1]) + 1


def _plain(asked: Input, value: Any) -> Any:
    """What was typed as the row takes it."""
    if asked.path == "quantity" and isinstance(value, str) and value.isdigit():
        return int(value)
    if asked.sort in ("number", "whole", "money", "hours") and value == "":
        return None
    if asked.sort == "choice" and value == "":
        return None if not asked.required and not _takes_blank(asked) else value
    return value


def _takes_blank(asked: Input) -> bool:
    return not callable(asked.choices) and any(not code for code, _ in asked.choices)
