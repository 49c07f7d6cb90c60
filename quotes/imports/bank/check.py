"""A statement held against those before it: which of its lines are new, and which have to be confirmed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say
from quotes.calc.books.bank_lines import Reading, StatementLine
from quotes.imports.bank.read import Statement, read_statement
from quotes.queries.books.bank import KnownLine, alike_lines, bank_money, known_lines, remembered_reading


@dataclass(frozen=True, slots=True)
class CheckedLine:
    """A line, the line of an earlier file that it is (`known`), and one that it may be (`maybe`)."""

    line: StatementLine
    known: KnownLine | None
    maybe: KnownLine | None

    @property
    def to_confirm(self) -> str:
        """What somebody has to confirm before the line counts as a payment of its own; else empty."""
        if self.known or self.line.amount <= 0:
            return ""
        if self.line.ordinal > 1:
            return say(
                "stands {alike} times in this file: each is a payment of its own", alike=self.line.alike
            )
        if self.maybe:
            return say(
                "has day and sum of line {row} of {file}, in other words",
                row=self.maybe.row,
                file=self.maybe.file,
            )
        return ""


@dataclass(frozen=True, slots=True)
class CheckedStatement:
    """A statement as read, each line held against those that are kept."""

    statement: Statement
    lines: tuple[CheckedLine, ...]

    @property
    def new(self) -> tuple[CheckedLine, ...]:
        return tuple(one for one in self.lines if not one.known)

    @property
    def known(self) -> tuple[CheckedLine, ...]:
        return tuple(one for one in self.lines if one.known)

    @property
    def to_confirm(self) -> tuple[CheckedLine, ...]:
        return tuple(one for one in self.lines if one.to_confirm)

    @property
    def sound(self) -> bool:
        """Whether its new lines may be taken in."""
        return self.statement.sound and bool(self.new)


def check_statement(content: bytes, chosen: Reading | None = None, *, on: date) -> CheckedStatement:
    """Read a statement and hold it against those that are kept. FileFault where it can't be read at all."""
    decimals, month_first = bank_money()
    statement = read_statement(
        content,
        chosen,
        on=on,
        decimals=decimals,
        usual_order="mdy" if month_first else "dmy",
        remembered=remembered_reading,
    )
    known, near = known_lines(statement.lines), alike_lines(statement.lines)
    return CheckedStatement(statement, tuple(_checked(line, known, near) for line in statement.lines))


def _checked(
    line: StatementLine, known: Mapping[str, KnownLine], near: Mapping[tuple[date, Decimal], KnownLine]
) -> CheckedLine:
    here = known.get(line.fingerprint)
    return CheckedLine(line, here, None if here else near.get((line.on, line.amount)))
