"""A file of earlier strip-downs: bytes to rows, or every fault with its place.

Either a table, one line for each set, or JSON as `fit_life` reads it, with the words that a table has in its
columns beside the ages: {"component": ..., "failures": [...], "suspensions": [...], ...}.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import partial
from typing import Any

from catalogue.calc.said import say, say_figure, to_say
from quotes.actions.learning.by_hand import EarlierSet, faults_of
from quotes.calc.ask.fault import BadRequest
from quotes.calc.life.life_data import LifeData, read_life_data
from quotes.imports.cells import MOST_BYTES, Cell, Row
from quotes.imports.evidence_columns import COLUMNS, Names, cell_value
from quotes.imports.faults import FileFault, RowFault
from quotes.imports.headed import Column, Value, columns_of, values_of
from quotes.imports.table import read_table
from quotes.queries.learning.rows import Catalogues

SHEET = "Strip-downs"
JSON = to_say("The file")
PER_ITEM = ("amount", "entry", "seen_good_at", "outcome")
BY_KEY: Mapping[str, Column] = {column.key: column for column in COLUMNS}


@dataclass(frozen=True, slots=True)
class EvidenceFile:
    """What a file holds; where there are faults nothing of it is entered."""

    rows: tuple[EarlierSet, ...]
    faults: tuple[RowFault, ...]


def read_evidence(content: bytes, names: Names, today: date, known: Catalogues) -> EvidenceFile:
    """Read a table or JSON. FileFault where it can't be read at all or a column is missing."""
    if content.lstrip().startswith(b"{"):
        return _from_json(content, names, today, known)
    table = read_table(content, SHEET)
    columns = columns_of(table, COLUMNS)
    read = partial(cell_value, names=names, today=today)
    rows: list[EarlierSet] = []
    faults: list[RowFault] = []
    for row in table.rows[1:]:
        values, found = values_of(table.sheet, row, columns, read)
        faults += found
        if not found:
            earlier = _earlier(values)
            faults += _against(table.sheet, row.line, earlier, today, known)
            rows.append(earlier)
    return EvidenceFile(tuple(rows), tuple(faults))


def _earlier(values: Mapping[str, Any]) -> EarlierSet:
    return EarlierSet(**{"tier": "refresh", **values})


def _against(sheet: str, line: int, told: EarlierSet, today: date, known: Catalogues) -> list[RowFault]:
    """What is wrong with a line as a whole."""
    return [
        RowFault(sheet, line, BY_KEY[field].heading, str(getattr(told, field)), words, BY_KEY[field].allowed)
        for field, words in faults_of(told, today, known).items()
    ]


def _from_json(content: bytes, names: Names, today: date, known: Catalogues) -> EvidenceFile:
    if len(content) > MOST_BYTES:
        raise FileFault(
            say(
                "The file has {count} bytes. Allowed are at most {most}.",
                count=say_figure(len(content), 0),
                most=say_figure(MOST_BYTES, 0),
            )
        )
    try:
        raw = json.loads(content)
        words = {column.key: raw.pop(column.key, None) for column in COLUMNS if column.key not in PER_ITEM}
        data = read_life_data(raw)
    except (UnicodeDecodeError, json.JSONDecodeError, RecursionError) as error:
        raise FileFault(
            say("The file begins as JSON and can't be read as such: {error}.", error=error)
        ) from None
    except BadRequest as bad:
        raise FileFault(say("The ages can't be read: {why}.", why=bad)) from None
    values, faults = _words(words, names, today)
    rows = () if faults else tuple(_items(data, values))
    for place, row in enumerate(rows, start=1):
        faults += _against(say(JSON), place, row, today, known)
    return EvidenceFile(rows, tuple(faults))


def _words(words: Mapping[str, Any], names: Names, today: date) -> tuple[dict[str, Value], list[RowFault]]:
    columns = dict(enumerate(column for column in COLUMNS if column.key not in PER_ITEM))
    cells = tuple(
        Cell("text", str(words[one.key])) if words[one.key] not in (None, "") else None
        for one in columns.values()
    )
    return values_of(say(JSON), Row(1, cells), columns, partial(cell_value, names=names, today=today))


def _items(data: LifeData, values: Mapping[str, Any]) -> list[EarlierSet]:
    """One row for each age, the items counted through so that each is told from the next."""
    ends: list[tuple[str, float, float | None]] = [("failed", age, None) for age in data.failures]
    ends += [("sound", age, None) for age in data.suspensions]
    ends += [("past_limit", high, low) for low, high in data.intervals]
    return [
        _earlier(
            {
                **values,
                "engine": f"{values['engine']}, item {place}",
                "outcome": outcome,
                "amount": _rounded(age),
                "entry": _rounded(entry),
                "seen_good_at": None if good is None else _rounded(good),
            }
        )
        for place, ((outcome, age, good), entry) in enumerate(zip(ends, data.entered, strict=True), start=1)
    ]


def _rounded(age: float) -> Decimal:
    return round(Decimal(str(age)), 2)
