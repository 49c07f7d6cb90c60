"""One row of evidence: how long one set of a component lasted or had lasted, in reference service.

Reference service is what the damage clock makes of an age: the use that would have worn the component as
much on the reference duty at the standard tune. So rows of different duties and tunes can stand together.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from catalogue.calc.said import say, to_say
from quotes.calc.bench.ages.lasted import Outcome
from quotes.calc.life.life_data import LifeData

OUTCOMES: tuple[Outcome, ...] = ("failed", "past_limit", "sound")
IN_WORDS: dict[Outcome, str] = {
    "failed": to_say("failed"),
    "past_limit": to_say("found past its limit"),
    "sound": to_say("still sound"),
}
PLACES = 3
"""Decimals of a reference age: a thousandth of a mile is far below what anybody knows."""


@dataclass(frozen=True, slots=True)
class SetSeen:
    """What was seen of one set. `put_aside` says why it does not count, where it does not."""

    key: str
    teardown: str
    """Key of the strip-down or report that it comes from; several rows may share one."""
    engine: str
    engine_type: str
    duty: str
    tier: str
    outcome: Outcome
    entry: float
    """Age at which it came under observation."""
    left: float
    """Age at which it was seen last."""
    seen_good: float | None
    """Where it was found past its limit: the age at which it was last within."""
    on: date
    recorded: str
    """The age as it was written down."""
    put_aside: str = ""
    source: str = ""
    """Where it is written down, and who entered it."""

    @property
    def fault(self) -> str:
        """Why its ages are no evidence; empty where they are."""
        if self.left <= 0:
            return say("it had not run")
        if self.outcome == "past_limit":
            return "" if self.last_good < self.left else say("it had run nothing since it was last seen good")
        return "" if self.entry < self.left else say("it had run nothing since it was last seen")

    @property
    def last_good(self) -> float:
        """Age at which it was last known to be within limits, where it was found past them."""
        return self.entry if self.seen_good is None else max(self.seen_good, self.entry)

    def as_json(self) -> dict[str, Any]:
        """What a change freezes of it."""
        return {
            "key": self.key,
            "teardown": self.teardown,
            "engine": self.engine,
            "engine_type": self.engine_type,
            "duty": self.duty,
            "tier": self.tier,
            "outcome": self.outcome,
            "entry": round(self.entry, PLACES),
            "left": round(self.left, PLACES),
            "seen_good": None if self.seen_good is None else round(self.seen_good, PLACES),
            "on": self.on.isoformat(),
            "recorded": self.recorded,
            "source": self.source,
        }


@dataclass(frozen=True, slots=True)
class Counts:
    """How many sets failed, were found past their limit, and were still sound."""

    failed: int
    past_limit: int
    sound: int

    @property
    def all(self) -> int:
        return self.failed + self.past_limit + self.sound

    @property
    def of_one_mode(self) -> int:
        """The most that ended in one way: broken in use, or worn past the limit."""
        return max(self.failed, self.past_limit)


def counting(rows: Iterable[SetSeen]) -> tuple[SetSeen, ...]:
    """Rows that count, in an order that does not depend on the one they came in."""
    return tuple(
        sorted((row for row in rows if not row.put_aside), key=lambda row: (row.left, row.entry, row.key))
    )


def counts_of(rows: Iterable[SetSeen]) -> Counts:
    """How many of each, of the rows given."""
    outcomes = [row.outcome for row in rows]
    return Counts(*(outcomes.count(each) for each in OUTCOMES))


def life_data(rows: Sequence[SetSeen]) -> LifeData:
    """Rows as data that a life can be fitted to; those put aside stay out."""
    kinds = {each: [row for row in counting(rows) if row.outcome == each] for each in OUTCOMES}
    entries = [row.entry for each in ("failed", "sound") for row in kinds[each]]
    entries += [min(row.entry, row.last_good) for row in kinds["past_limit"]]
    return LifeData(
        failures=tuple(row.left for row in kinds["failed"]),
        suspensions=tuple(row.left for row in kinds["sound"]),
        intervals=tuple((row.last_good, row.left) for row in kinds["past_limit"]),
        entries=tuple(entries) if any(entries) else (),
    )
