"""The mark of a row, by which a workbook knows whether it was changed since it was written out."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from decimal import Context, Decimal
from typing import Any

from catalogue.calc.rows.kinds import Row

DIGITS = 15
"""A spreadsheet keeps so many digits of a number: two that agree in these are one number."""
_ROUND = Context(prec=DIGITS)


def mark_of(row: Row) -> str:
    """Sixteen letters that two rows share only where a spreadsheet can't tell them apart."""
    told = json.dumps(plain(row.model_dump()), sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(told.encode()).hexdigest()[:16]


def plain(value: Any) -> Any:
    """A value as spreadsheets keep it, to compare by: numbers in 15 digits, one kind of line end."""
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, str):
        return value.replace("\r\n", "\n").replace("\r", "\n")
    if isinstance(value, int | float | Decimal):
        return ["number", str(to_fifteen(value))]
    if isinstance(value, Mapping):
        return {str(key): plain(each) for key, each in value.items()}
    return [plain(each) for each in value]


def to_fifteen(value: float | Decimal) -> Decimal:
    """The number in as many digits as a spreadsheet keeps, without trailing noughts."""
    exact = value if isinstance(value, Decimal) else Decimal(repr(value))
    return (_ROUND.plus(exact) + 0).normalize()


def fields_apart(one: Row, other: Row) -> tuple[str, ...]:
    """The fields in which two rows of one kind differ, as far as a spreadsheet can tell."""
    left, right = plain(one.model_dump()), plain(other.model_dump())
    return tuple(field for field in type(one).model_fields if left[field] != right[field])
