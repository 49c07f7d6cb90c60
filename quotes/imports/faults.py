"""What is wrong with a file that was handed in, said so that it can be mended."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.said import say, say_figure

SHOWN = 60


@dataclass(frozen=True, slots=True)
class RowFault:
    """A fault of one cell: where it stands, what is there, why that can't be, what is allowed."""

    sheet: str
    line: int
    column: str
    value: str
    reason: str
    allowed: str

    def __str__(self) -> str:
        return say(
            "{sheet}, line {line}, {column}: “{value}” {reason}; {allowed}",
            sheet=self.sheet,
            line=self.line,
            column=self.column,
            value=self.value,
            reason=self.reason,
            allowed=self.allowed,
        )


class FileFault(Exception):
    """The file as a whole can't be read. Its text says what it is and what is allowed."""


def shown(value: str) -> str:
    """A value short enough for a page, with what can't be printed made visible."""
    plain = "".join(char if char.isprintable() else "\N{REPLACEMENT CHARACTER}" for char in value)
    return (
        plain
        if len(plain) <= SHOWN
        else say("{begin}… ({count} characters)", begin=plain[:SHOWN], count=say_figure(len(value), 0))
    )
