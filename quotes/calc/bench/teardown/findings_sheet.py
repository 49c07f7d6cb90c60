"""The findings report as the customer reads it: page and paper draw this value."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import Literal

from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Value
from quotes.calc.bench.receipt import PhotoShown
from quotes.calc.bench.teardown.verdicts import DEFAULT_SOURCE, Verdict
from quotes.calc.sheet.issued_values import Party

Judgement = Literal["stop", "companions", "renew", "until", "serviceable"]
WORST_FIRST: tuple[Judgement, ...] = ("stop", "companions", "renew", "until", "serviceable")
PAST_FIRST: tuple[Verdict, ...] = ("past", "watch", "within", "no_limit")
LIMITS_ARE_THE_MAKERS = to_say(
    "The maker's service manual governs every limit. What is renewed and what stays is "
    "judged by it and by what was seen, never by a figure alone."
)
SOME_ARE_NOT = to_say(
    "Limits marked “{source}” are figures that such engines commonly have. They are not your "
    "maker's: where one of them decides, ask us to look it up."
)


class FindingShown(Value):
    """One finding in plain words. `chain` is what it brings with it, from the damage to the last link."""

    judged: Judgement
    judged_in_words: str
    component: str
    seen: str
    place: str = ""
    cause: str = ""
    consequence: str = ""
    until: str = ""
    chain: str = ""
    besides: str = ""
    sources: tuple[str, ...] = ()
    """Where metal of this look may come from."""
    shown_by: tuple[str, ...] = ()
    """The work that looks for it there."""
    read: tuple[str, ...] = ()
    """Readings of the same part and place, each against its limit and whose it is."""
    photos: tuple[PhotoShown, ...] = ()


class ReadingShown(Value):
    """One reading as it stood on the instrument, with what it was held against and whose figure that is."""

    component: str
    name: str
    place: str = ""
    read: str
    standard: str = ""
    limit: str = ""
    source: str = ""
    verdict: Verdict
    verdict_in_words: str


class FindingsSheet(Value):
    """As it was issued; words only, so that it reads the same ever after."""

    number: str
    job_number: str
    workshop: Party
    customer: Party
    engine_name: str
    engine_number: str
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    on: date
    findings: tuple[FindingShown, ...]
    readings: tuple[ReadingShown, ...]
    cautions: tuple[str, ...]

    def says_the_same(self, other: FindingsSheet) -> bool:
        """Whether the two tell the customer the same, whatever their number and day."""
        return self.model_copy(update={"number": other.number, "on": other.on}) == other


def cautions_of(sources: Collection[str]) -> tuple[str, ...]:
    """What is said with every report, and that some limits are nobody's manual where that is so."""
    if DEFAULT_SOURCE not in sources:
        return (say(LIMITS_ARE_THE_MAKERS),)
    return (say(LIMITS_ARE_THE_MAKERS), say(SOME_ARE_NOT, source=say(DEFAULT_SOURCE)))
