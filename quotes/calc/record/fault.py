"""One fault of the record: what was looked at, of which document, and what was found instead."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class RecordFault:
    """One line for whoever looks the record through."""

    document: str
    what: str
    expected: object
    found: object

    def __str__(self) -> str:
        return f"{self.document}: {self.what}: expected {self.expected}, found {self.found}"


@dataclass(frozen=True, slots=True)
class Stated:
    """A figure as it is stated, beside what it must be."""

    what: str
    expected: object
    found: object


def differing(document: str, *stated: Stated) -> Iterator[RecordFault]:
    """A fault for each figure that is not what it must be."""
    for one in stated:
        if one.expected != one.found:
            yield RecordFault(document, one.what, one.expected, one.found)
