"""An engine's logbook: everything that is known to have happened to it, dated, by whom."""

from __future__ import annotations

from datetime import date
from typing import Literal

from quotes.calc.ask.request import Value
from quotes.calc.sheet.issued_values import Party


class LogEntry(Value):
    """One thing that happened. `on` None: before anybody dated it."""

    on: date | None
    what: str
    """Service, received, finding, renewed, machine work, handed over, reported, failure, ..."""
    words: str
    by: str = ""
    job: str = ""


class LogSheet(Value):
    """The logbook of one engine, oldest first, with how far each lifed part has run."""

    workshop: Party
    owner: Party
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    engine_name: str
    engine_number: str
    on: date
    entries: tuple[LogEntry, ...]
    taken_off: tuple[str, ...]
    parts: tuple[tuple[str, str], ...]
    """Component, and its age in words."""


def in_order(entries: list[LogEntry]) -> tuple[LogEntry, ...]:
    """By day, what has no day first; within a day in the order given."""
    return tuple(sorted(entries, key=lambda entry: entry.on or date.min))
