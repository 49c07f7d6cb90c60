"""What a build is committed to, held against what the customer has said it may cost."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, get_args

from catalogue.calc.money import ZERO
from catalogue.calc.said import to_say

Touches = Literal["sum", "safety", "life", "date"]
TOUCHES: tuple[Touches, ...] = get_args(Touches)
TOUCHES_IN_WORDS: dict[Touches, str] = {
    "sum": to_say("it goes over the sum that may be spent without asking"),
    "safety": to_say("it bears on the rider's safety"),
    "life": to_say("it changes how long the engine lasts"),
    "date": to_say("it moves the day the engine is ready"),
}


@dataclass(frozen=True, slots=True)
class Committed:
    """Sums of one build with tax, in the workshop's currency.

    `within` is extra work done inside `limit`, what may be spent without asking; `waiting` was offered and
    is not answered, so nothing of it may be done.
    """

    accepted: Decimal
    extra_accepted: Decimal
    within: tuple[Decimal, ...]
    limit: Decimal
    waiting: Decimal = ZERO

    @property
    def within_sum(self) -> Decimal:
        return sum(self.within, ZERO)

    @property
    def agreed(self) -> Decimal:
        """Accepted at the yes and since."""
        return self.accepted + self.extra_accepted

    @property
    def total(self) -> Decimal:
        """All that the customer will be asked for, unless more is agreed."""
        return self.agreed + self.within_sum

    @property
    def up_to(self) -> Decimal:
        """The most that may be committed without another yes."""
        return self.agreed + self.limit

    @property
    def left(self) -> Decimal:
        """What may still be spent without asking. What was saved adds nothing to it."""
        used = sum((gross for gross in self.within if gross > ZERO), ZERO)
        return max(self.limit - used, ZERO)

    def must_ask(self, gross: Decimal, touches: Collection[Touches] = ()) -> tuple[Touches, ...]:
        """Why the customer must be asked before work of that sum is done; empty where he need not be."""
        over = gross > self.left
        return tuple(one for one in TOUCHES if one in touches or (one == "sum" and over))
