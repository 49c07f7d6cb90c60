"""What taking in a file of customers would do: who is added, who is known, and what contradicts the records.

Nothing that is kept is ever changed: a file adds customers, engines and stretches of service. The same file
once more therefore adds nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.said import say
from quotes.calc.intake.given_customers import (
    Ambiguous,
    CustomerGiven,
    EngineGiven,
    Identity,
    SegmentGiven,
    engine_key,
    identity,
    same_customer,
)

Word = Literal["added", "matched", "unchanged", "refused"]
SegmentKept = tuple[Decimal, str, str, str, date | None, date | None]


@dataclass(frozen=True, slots=True)
class EngineKept:
    """An engine in the records with its stretches of service."""

    pk: int
    owner: int
    owner_name: str
    type_code: str
    number: str
    segments: tuple[SegmentKept, ...] = ()


@dataclass(frozen=True, slots=True)
class CustomerKept:
    """A customer in the records."""

    pk: int
    name: str
    email: str
    telephone: str
    address: str = ""
    tax_registration: str = ""
    country: str = ""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Where a file says otherwise than the records; `key` is the column's."""

    line: int
    key: str
    value: str
    reason: str
    allowed: str


@dataclass(frozen=True, slots=True)
class EnginePlan:
    """What becomes of one engine of the file. `kept` None means that it is added."""

    given: EngineGiven
    kept: EngineKept | None
    new_segments: tuple[SegmentGiven, ...]
    refused: bool = False
    """It contradicts the records, so that nothing of the file can be taken in."""

    @property
    def word(self) -> Word:
        if self.refused:
            return "refused"
        if self.kept is None:
            return "added"
        return "matched" if self.new_segments else "unchanged"


@dataclass(frozen=True, slots=True)
class CustomerPlan:
    """What becomes of one customer of the file. `stays` names what it says otherwise, which is not taken."""

    given: CustomerGiven
    kept: CustomerKept | None
    engines: tuple[EnginePlan, ...]
    stays: tuple[str, ...] = ()
    refused: bool = False

    @property
    def word(self) -> Word:
        if self.refused or any(engine.refused for engine in self.engines):
            return "refused"
        if self.kept is None:
            return "added"
        return "matched" if any(engine.word != "unchanged" for engine in self.engines) else "unchanged"


@dataclass(frozen=True, slots=True)
class CustomersPlan:
    """The whole file, held against the records."""

    customers: tuple[CustomerPlan, ...]
    contradictions: tuple[Contradiction, ...]

    @property
    def new_customers(self) -> int:
        return sum(one.kept is None for one in self.customers)

    @property
    def new_engines(self) -> int:
        return sum(engine.kept is None for one in self.customers for engine in one.engines)

    @property
    def new_segments(self) -> int:
        return sum(len(engine.new_segments) for one in self.customers for engine in one.engines)

    @property
    def adds_nothing(self) -> bool:
        return not (self.new_customers or self.new_engines or self.new_segments)


def plan_customers(
    given: Iterable[CustomerGiven], customers: Sequence[CustomerKept], engines: Iterable[EngineKept]
) -> CustomersPlan:
    """Hold the customers of a file against those in the records."""
    known = [identity(one.name, one.email, one.telephone) for one in customers]
    by_key: dict[tuple[str, str], list[EngineKept]] = {}
    for engine in engines:
        by_key.setdefault(engine_key(engine.type_code, engine.number), []).append(engine)
    plans: list[CustomerPlan] = []
    wrong: list[Contradiction] = []
    for one in given:
        before = len(wrong)
        kept = _kept(one, customers, known, wrong)
        refused = len(wrong) > before
        engines_planned = tuple(_engine(engine, kept, by_key, wrong) for engine in one.engines)
        plans.append(CustomerPlan(one, kept, engines_planned, _stays(one, kept), refused))
    return CustomersPlan(tuple(plans), tuple(wrong))


def _kept(
    given: CustomerGiven,
    customers: Sequence[CustomerKept],
    known: Sequence[Identity],
    wrong: list[Contradiction],
) -> CustomerKept | None:
    try:
        place = same_customer(known, identity(given.name, given.email, given.telephone))
    except Ambiguous:
        reason = say("may be one of two customers of that name in the records")
        wrong.append(
            Contradiction(given.line, "name", given.name, reason, say("the e-mail that tells which"))
        )
        return None
    return None if place is None else customers[place]


def _engine(
    given: EngineGiven,
    owner: CustomerKept | None,
    by_key: dict[tuple[str, str], list[EngineKept]],
    wrong: list[Contradiction],
) -> EnginePlan:
    found = by_key.get(given.key, [])
    mine = [engine for engine in found if owner and engine.owner == owner.pk]
    if found and not mine:
        reason = say("is kept as an engine of {owner}", owner=found[0].owner_name)
        wrong.append(
            Contradiction(given.line, "number", given.number, reason, say("that customer on the line"))
        )
        return EnginePlan(given, None, (), refused=True)
    if not mine:
        return EnginePlan(given, None, given.segments)
    before = len(wrong)
    new = _new_segments(given, mine[0], wrong)
    return EnginePlan(given, mine[0], new, refused=len(wrong) > before)


def _new_segments(
    given: EngineGiven, kept: EngineKept, wrong: list[Contradiction]
) -> tuple[SegmentGiven, ...]:
    """Stretches that come after those in the records. Of two different pasts neither is taken."""
    told = [segment.content for segment in given.segments]
    common = min(len(told), len(kept.segments))
    for place in range(common):
        if told[place] != kept.segments[place]:
            segment = given.segments[place]
            reason = say(
                "is not the {place}. stretch of service in the records of {number}",
                place=place + 1,
                number=given.number,
            )
            allowed = say("the same stretches in the same order, new ones after them")
            wrong.append(Contradiction(segment.line, "amount", f"{segment.amount:f}", reason, allowed))
            return ()
    return given.segments[common:]


def _stays(given: CustomerGiven, kept: CustomerKept | None) -> tuple[str, ...]:
    if kept is None:
        return ()
    words = {"address": say("address"), "telephone": say("telephone"), "email": say("e-mail"),
             "tax_registration": say("tax registration"), "country": say("country")}  # fmt: skip
    return tuple(
        word
        for name, word in words.items()
        if getattr(given, name) and getattr(given, name) != getattr(kept, name)
    )
