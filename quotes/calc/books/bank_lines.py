"""A bank's statement as values: how its file is read, and its lines with the fingerprint of each."""

from __future__ import annotations

import hashlib
import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Literal, NamedTuple

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.calc.ask.request import Value

DecimalMark = Literal["", ".", ","]
DateOrder = Literal["", "ymd", "dmy", "mdy"]
LONGEST_PAYER, LONGEST_TEXT = 200, 500


class ColumnsChosen(Value):
    """Which column is what, counted from 0. The sum stands in one column, or in one for each way."""

    date: int
    amount: int | None = None
    money_in: int | None = None
    money_out: int | None = None
    payer: int | None = None
    text: tuple[int, ...] = ()

    @property
    def fault(self) -> str:
        """What is wrong with the choice; empty where it is sound."""
        if self.amount is None and self.money_in is None:
            return say("Choose the column of the sum, or the one of money that came in.")
        if self.amount is not None and (self.money_in is not None or self.money_out is not None):
            return say("Choose one column for the sum, or one for each way, not both.")
        single = [self.date, self.amount, self.money_in, self.money_out, self.payer]
        count = Counter(one for one in (*single, *self.text) if one is not None)
        if any(times > 1 for times in count.values()):
            return say("One column can't be two things: choose each once.")
        return ""


class Reading(Value):
    """How a file is read. What is empty or None is guessed.

    `head_line` is the line of the file that names the columns, and 0 where none does.
    """

    charset: str = ""
    separator: str = ""
    decimal_mark: DecimalMark = ""
    date_order: DateOrder = ""
    head_line: int | None = None
    columns: ColumnsChosen | None = None


@dataclass(frozen=True, slots=True)
class StatementLine:
    """One line. `amount` is above nought for money that came in.

    `ordinal`: which of several alike in this file it is, from 1; `alike`: how many of them there are.
    """

    row: int
    on: date
    amount: Decimal
    payer: str
    text: str
    ordinal: int = 1
    alike: int = 1

    @property
    def fingerprint(self) -> str:
        """The same in every file that holds this line, however it sets blanks, letters and decimals."""
        said = (
            self.on.isoformat(),
            format(round_half_up(self.amount, 3), "f"),
            _folded(self.payer),
            _folded(self.text),
            str(self.ordinal),
        )
        return hashlib.sha256("\x1f".join(said).encode()).hexdigest()


class _Same(NamedTuple):
    on: date
    amount: Decimal
    payer: str
    text: str


def numbered(lines: Iterable[StatementLine]) -> tuple[StatementLine, ...]:
    """The lines with their place among those alike: a line that stands twice is two payments."""
    rows = list(lines)
    count = Counter(_same(line) for line in rows)
    seen: Counter[_Same] = Counter()
    found = []
    for line in rows:
        same = _same(line)
        seen[same] += 1
        found.append(replace(line, ordinal=seen[same], alike=count[same]))
    return tuple(found)


def heads_fingerprint(heads: Sequence[str]) -> str:
    """By which the files of one bank are known again."""
    return hashlib.sha256("\x1f".join(_folded(head) for head in heads).encode()).hexdigest()


def _same(line: StatementLine) -> _Same:
    return _Same(line.on, line.amount, _folded(line.payer), _folded(line.text))


def _folded(text: str) -> str:
    """The text without blanks and case: banks break and set the same text differently."""
    return "".join(unicodedata.normalize("NFKC", text).casefold().split())
