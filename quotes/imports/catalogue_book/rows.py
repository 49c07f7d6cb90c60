"""The workbook's lines put together to the catalogue's rows, each fault told by the cell it stands in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from pydantic import ValidationError

from catalogue.calc.book.marks import plain
from catalogue.calc.row_faults import row_faults
from catalogue.calc.rows.kinds import Row
from catalogue.calc.said import say
from catalogue.queries.book.layout import SheetLayout, sheets, sheets_of
from catalogue.queries.book.lines import dump_of, in_order, kept_of
from catalogue.queries.book.written import cell_of
from catalogue.queries.shapes import SHAPES, to_columns
from catalogue.queries.shapes.shape import Dump
from quotes.imports.catalogue_book.places import Place, place_in, placed
from quotes.imports.catalogue_book.sheets import Lined, OpenedBook
from quotes.imports.faults import RowFault, shown


@dataclass(slots=True)
class BookRows:
    """The rows by kind and code, and the lines that each was made of."""

    rows: dict[str, dict[str, Row]] = field(default_factory=dict)
    lines: dict[str, dict[str, dict[str, list[Lined]]]] = field(default_factory=dict)
    """By kind, code and sheet."""
    faults: list[RowFault] = field(default_factory=list)

    def place(self, kind: str, code: str, path: str = "") -> Place:
        """Where a value of an entry stands; its own line where that can't be said."""
        of_entry = self.lines[kind].get(code, {})
        main = sheets_of(kind)[0]
        shape = SHAPES[kind]
        steps = path.split(".") if path else []
        for key, at_path in shape.columns.items():
            column = main.column(key)
            if column and at_path == path and main.name in of_entry:
                return Place(main.name, of_entry[main.name][0].number, column.head)
        if steps and main.name in of_entry and (there := place_in(_placed(kind, of_entry), steps)):
            return there
        number = of_entry[main.name][0].number if main.name in of_entry else 0
        return Place(main.name, number)


def rows_in(book: OpenedBook) -> BookRows:
    """Every row of the workbook. Where a row has a fault it is left out, and the fault says where."""
    found = BookRows(lines=_by_entry(book))
    for sheet in sheets():
        found.faults += _twice(sheet, book.lines[sheet.name])
        found.faults += _astray(sheet, book.lines[sheet.name], found)
    for kind, shape in SHAPES.items():
        found.rows[kind] = {}
        main = sheets_of(kind)[0].name
        for code, lines in found.lines[kind].items():
            if main not in lines:
                continue
            try:
                row = shape.row.model_validate(_dump(kind, lines))
            except ValidationError as error:
                found.faults += _unsound(kind, code, error, found)
                continue
            found.rows[kind][code] = row
            found.faults += _unkept(kind, row, lines)
    return found


def _by_entry(book: OpenedBook) -> dict[str, dict[str, dict[str, list[Lined]]]]:
    found: dict[str, dict[str, dict[str, list[Lined]]]] = {kind: {} for kind in SHAPES}
    for sheet in sheets():
        for line in book.lines[sheet.name]:
            of_entry = found[sheet.kind].setdefault(str(line.values[sheet.owner.key]), {})
            of_entry.setdefault(sheet.name, []).append(line)
    return found


def _twice(sheet: SheetLayout, lines: Sequence[Lined]) -> Iterator[RowFault]:
    """Lines that say again what may be said once."""
    for keys in sheet.once:
        first: dict[tuple[Any, ...], int] = {}
        for line in lines:
            said = tuple(line.values[key] for key in keys)
            before = first.setdefault(said, line.number)
            if before != line.number and None not in said:
                heads = ", ".join(column.head for column in sheet.columns if column.key in keys)
                told = ", ".join(str(value) for value in said)
                reason = say("stands in line {line} already", line=before)
                yield RowFault(sheet.name, line.number, heads, shown(told), reason, say("each once"))


def _astray(sheet: SheetLayout, lines: Sequence[Lined], found: BookRows) -> Iterator[RowFault]:
    """Lines whose entry has no line of its own."""
    main = sheets_of(sheet.kind)[0].name
    for line in lines:
        code = str(line.values[sheet.owner.key])
        if main not in found.lines[sheet.kind][code]:
            reason = say("has no line in the sheet “{sheet}”", sheet=main)
            allowed = say("a code that stands there; with an entry go all its lines")
            yield RowFault(sheet.name, line.number, sheet.owner.head, shown(code), reason, allowed)


def _dump(kind: str, lines: Mapping[str, Sequence[Lined]]) -> Dump:
    main = sheets_of(kind)[0].name
    values = {name: [line.values for line in some] for name, some in lines.items()}
    return dump_of(kind, lines[main][0].values, values)


def _placed(kind: str, lines: Mapping[str, Sequence[Lined]]) -> Dump:
    """The same values, each of which knows its cell."""
    knowing = {
        sheet.name: [
            Lined(
                line.number,
                {
                    one.key: placed(line.values[one.key], Place(sheet.name, line.number, one.head))
                    for one in sheet.columns
                },
            )
            for line in lines.get(sheet.name, ())
        ]
        for sheet in sheets_of(kind)
    }
    return _dump(kind, knowing)


def _unsound(kind: str, code: str, error: ValidationError, found: BookRows) -> Iterator[RowFault]:
    for steps, reason in row_faults(error):
        path = ".".join(str(step) for step in steps)
        yield fault_at(found, kind, code, path, reason)


def fault_at(found: BookRows, kind: str, code: str, path: str, reason: str) -> RowFault:
    """A fault of an entry, told by the cell that it is about."""
    place = found.place(kind, code, path)
    sheet = next(one for one in sheets() if one.name == place.sheet)
    column = next((one for one in sheet.columns if one.head == place.column), None)
    lines = found.lines[kind].get(code, {}).get(sheet.name, ())
    line = next((one for one in lines if one.number == place.line), None)
    value = str(cell_of(column, line.values[column.key]) or "") if line and column else code
    allowed = column.allowed if column else say("what the other cells of the entry go together with")
    head = place.column or (say("the whole line") if place.line else path.replace("_", " "))
    return RowFault(place.sheet, place.line, head, shown(value), reason, allowed)


def _unkept(kind: str, row: Row, lines: Mapping[str, Sequence[Lined]]) -> Iterator[RowFault]:
    """Cells that would be lost without a word, since the others of their entry leave no room for them."""
    main, *others = sheets_of(kind)
    given, columns = lines[main.name][0], to_columns(SHAPES[kind], row)
    for column in main.columns:
        value = given.values[column.key]
        if plain(value) != plain(columns[column.key]):
            yield _lost(main, given, column.head, cell_of(column, value))
    dump = row.model_dump()
    for sheet in others:
        assert sheet.split is not None
        owner = sheet.owner.key
        left = Counter(kept_of(sheet, {owner: given.values["code"], **line}) for line in sheet.split(dump))
        for line in lines.get(sheet.name, ()):
            (told,) = in_order(sheet, [line.values])
            key = kept_of(sheet, told)
            if left[key] < 1:
                yield _lost(sheet, line, "", " ".join(str(each) for each in key if each is not None))
            left[key] -= 1


def _lost(sheet: SheetLayout, line: Lined, head: str, value: object) -> RowFault:
    reason = say("does not go with the other cells of its entry: it would not be kept")
    allowed = say("empty, or as the other entries have it")
    told = shown("" if value is None else str(value))
    return RowFault(sheet.name, line.number, head, told, reason, allowed)
