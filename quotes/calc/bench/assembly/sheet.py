"""The assembly record as it was closed: page and paper draw this value."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.said import say
from quotes.calc.ask.request import Value
from quotes.calc.bench.said import exact
from quotes.calc.sheet.issued_values import Party


class RecordValue(Value):
    """What was written at one place. `within` as the entry has it; `conceded` where the owner let it pass."""

    place: str
    words: str
    within: bool | None = None
    conceded: bool = False


class RecordItem(Value):
    """One requirement with all its places, its limits in words, who wrote it and with what.

    `unit` is that of every value, where they have one in common.
    """

    name: str
    values: tuple[RecordValue, ...]
    unit: str = ""
    limits: str = ""
    source: str = ""
    instruments: tuple[str, ...] = ()
    by: tuple[str, ...] = ()

    @property
    def alike(self) -> str:
        """What stands at every place, where it is the same everywhere and inside its limits."""
        first = self.values[0].words if self.values else ""
        same = all(one.words == first and one.within is not False and not one.conceded for one in self.values)
        return first if same else ""

    @property
    def single(self) -> bool:
        return len(self.values) == 1 and not self.values[0].place

    @property
    def lines(self) -> tuple[tuple[str, tuple[tuple[str, RecordValue], ...]], ...]:
        """Values with the words for their places, those of one cylinder on a line of its own."""
        split = [(*one.place.partition(", ")[::2], one) for one in self.values]
        heads = list(dict.fromkeys(head for head, _, _ in split))
        if len(heads) == len(split):
            return (("", tuple((one.place, one) for one in self.values)),)
        return tuple((head, tuple((rest, one) for at, rest, one in split if at == head)) for head in heads)


class RecordPart(Value):
    """One component with what was written of it."""

    name: str
    items: tuple[RecordItem, ...]


class RecordConcession(Value):
    """The owner's word, and what it is about."""

    what: str
    words: str
    by: str
    on: date


class RecordSheet(Value):
    """What was built, component by component in the order of putting together."""

    number: str
    """The job's."""
    workshop: Party
    customer: Party
    engine_name: str
    engine_number: str
    tag: str
    quote: str
    build: str
    """The name of what was said yes to."""
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    closed_on: date
    closed_by: str
    parts: tuple[RecordPart, ...]
    concessions: tuple[RecordConcession, ...] = ()
    instruments: tuple[tuple[str, str], ...] = ()
    """Each instrument used, with the day of its last check in words."""


def limits_in_words(low: Decimal | None, high: Decimal | None, unit: str) -> str:
    """Both bounds, or the one there is; nothing where there is none."""
    unit = {"percent": "%", "ratio": say("of new"), "degrees": say("degrees")}.get(unit, unit)
    if low is not None and high is not None:
        return say("{low} to {high} {unit}", low=_plain(low), high=_plain(high), unit=unit)
    if high is not None:
        return say("{high} {unit} at most", high=_plain(high), unit=unit)
    return say("{low} {unit} at least", low=_plain(low), unit=unit) if low is not None else ""


def _plain(figure: Decimal) -> str:
    return exact(figure.normalize())
