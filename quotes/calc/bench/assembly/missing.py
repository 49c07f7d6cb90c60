"""What a record still lacks: nothing written, a figure outside its limits, or no second person's check."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from catalogue.calc.said import say, to_say
from quotes.calc.bench.assembly.requirements import Requirement

Spot = tuple[str, str]
"""A requirement's code, and the place."""
Why = Literal["empty", "outside", "same person", "changed since"]
IN_WORDS: Mapping[Why, str] = {
    "empty": to_say("nothing is written"),
    "outside": to_say("outside its limits"),
    "same person": to_say("the same person did it and checked it"),
    "changed since": to_say("was changed after it was checked"),
}


@dataclass(frozen=True, slots=True)
class Answer:
    """An entry that stands: by whom, when, and whether it is inside its limits (None: it has none)."""

    by: str
    at: datetime
    within: bool | None = None


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing that keeps the record open."""

    requirement: Requirement
    place: str
    why: Why

    @property
    def words(self) -> str:
        return say(IN_WORDS[self.why])


def missing(
    requirements: Iterable[Requirement], answers: Mapping[Spot, Answer], conceded: Mapping[Spot, datetime]
) -> tuple[Missing, ...]:
    """What is empty, outside or unchecked without the owner's word for it.

    His word holds for what stood when he gave it: a figure written after it is held to its limits again.
    """
    rows = tuple(requirements)
    found = []
    for one in rows:
        for place in one.places:
            spot = (one.code, place)
            why = _why(one, answers.get(spot), answers)
            if why and not _conceded(answers.get(spot), conceded.get(spot)):
                found.append(Missing(one, place, why))
    return tuple(found)


def _conceded(answer: Answer | None, word: datetime | None) -> bool:
    return word is not None and (answer is None or word >= answer.at)


def _why(one: Requirement, answer: Answer | None, answers: Mapping[Spot, Answer]) -> Why | None:
    if answer is None:
        return "empty"
    if one.kind == "second":
        return _unchecked(answer, covered(one, answers))
    return "outside" if answer.within is False else None


def covered(check: Requirement, answers: Mapping[Spot, Answer]) -> tuple[Answer, ...]:
    """The answers that a second person's check is about."""
    return tuple(answer for (code, _), answer in answers.items() if code in check.checks)


def _unchecked(check: Answer, about: Sequence[Answer]) -> Why | None:
    if any(answer.by == check.by for answer in about):
        return "same person"
    return "changed since" if any(answer.at > check.at for answer in about) else None
