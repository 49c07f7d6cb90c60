"""What only the whole list shows: numbers that lost their noughts, and the price of one that was replaced.

Numbers that stand twice, or replace each other in a ring, are refused where the list is taken in.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from operator import attrgetter

from catalogue.calc.price_list.chain import last_of
from catalogue.calc.price_list.listed import Listed, number_key
from catalogue.calc.said import say
from quotes.imports.price_list.row_values import Values
from quotes.imports.price_list.rows import RowReader
from quotes.imports.price_list.texts import AS_TEXT

ENOUGH = 3
"""So many text numbers of one length that begin with a nought show how long all of them are."""
LIKE_FLOAT = re.compile(r"\d+[A-Z]\d+", re.ASCII | re.IGNORECASE)
AS_FLOAT, HAS_DECIMALS = re.compile(r"\d+[.,]0", re.ASCII), re.compile(r"\d+[.,]\d*[1-9]", re.ASCII)
ROUND = 1000
"""12E5 became 1200000: a number that can be parted by so much is taken for one, among others such as 12A5."""


def whole_list(reader: RowReader, shown: Mapping[int, int]) -> tuple[Listed, ...]:
    """The rows that may be taken; what the others show to be wrong is refused.

    `shown`: by line, with how many digits a workbook shows a number, or 0 where as a power of ten.
    """
    rows = _not_floats(_mended(reader, shown) if reader.numeric else reader.rows, reader)
    if reader.unpriced:
        rows += _unpriced(rows, reader)
    rows.sort(key=attrgetter("line"))
    reader.rejected.sort(key=attrgetter("line"))
    return tuple(rows)


def _mended(reader: RowReader, shown: Mapping[int, int]) -> list[Listed]:
    """The rows whose numbers are what they were, with the noughts that the workbook shows."""
    texts = [row.number for row in reader.rows if row.line not in reader.numeric]
    length, floats = _shown_length(texts), any(map(LIKE_FLOAT.fullmatch, texts))
    rows = []
    for row in reader.rows:
        if row.line not in reader.numeric:
            rows.append(row)
        elif (digits := shown.get(row.line)) and len(row.number) <= digits:
            rows.append(replace(row, number=row.number.zfill(digits)))
        elif reason := _spoiled(row.number, length, digits == 0 or (floats and int(row.number) % ROUND == 0)):
            cells = [""] * reader.number + [row.number]
            reader.refuse(row.line, [("number", row.number, reason, say(AS_TEXT))], cells)
        else:
            rows.append(row)
    return rows


def _not_floats(rows: list[Listed], reader: RowReader) -> list[Listed]:
    """The rows but those whose number reads 7.0 for 7, unless others have decimals of their own."""
    made = {row.line for row in rows if AS_FLOAT.fullmatch(row.number)}
    if not made or any(map(HAS_DECIMALS.fullmatch, (row.number for row in rows))):
        return rows
    for row in rows:
        if row.line in made:
            reason = say("may have been a whole number, which the spreadsheet wrote as a sum")
            cells = [""] * reader.number + [row.number]
            reader.refuse(row.line, [("number", row.number, reason, say(AS_TEXT))], cells)
    return [row for row in rows if row.line not in made]


def _spoiled(number: str, length: int, power: bool) -> str:
    """Why a number that the spreadsheet holds as one is not what it was; empty where it may be."""
    if len(number) < length:
        return say("may have lost its leading noughts: others have {count} digits", count=length)
    if power:
        return say("may have been one such as 12E5, which the spreadsheet took for a sum")
    return ""


def _shown_length(texts: Sequence[str]) -> int:
    """How many digits a number of this list has, where those kept as text show it; else nought."""
    digits = [text for text in texts if text.isascii() and text.isdigit()]
    lengths = Counter(map(len, digits))
    begun = Counter(len(text) for text in digits if text[0] == "0")
    sure = [length for length, count in begun.items() if count >= ENOUGH and len(lengths) == 1]
    return sure[0] if sure else 0


def _unpriced(rows: Sequence[Listed], reader: RowReader) -> list[Listed]:
    """Rows without a price whose successor stands in the list: they cost what that costs."""
    costs = {row.key: row for row in rows}
    nexts = {row.key: number_key(row.superseded_by) for row in rows if row.superseded_by}
    for values, _ in reader.unpriced:
        nexts[number_key(values["number"])] = number_key(values["superseded_by"])
    found = []
    for values, cells in reader.unpriced:
        last = costs.get(last_of(number_key(values["number"]), nexts))
        if last is None:
            reason = say("is blank, and the number that replaces it has no price here either")
            reader.refuse(values["line"], [("cost", "", reason, say("a price"))], cells)
            continue
        found.append(_priced(values, last, reader))
    return found


def _priced(values: Values, last: Listed, reader: RowReader) -> Listed:
    """A row without a price as one with that of its successor."""
    return replace(
        last,
        line=values["line"],
        number=values["number"],
        name=values.get("name") or last.name,
        gtin=values.get("gtin") or "",
        list_price=None,
        superseded_by=values["superseded_by"],
    )
