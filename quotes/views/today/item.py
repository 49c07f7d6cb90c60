"""One line of the day sheet: who must act, what to do, where, and since when."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.utils import timezone

from catalogue.calc.said import say, say_count, to_say
from quotes.calc.said_days import MONTHS
from quotes.documents.words import NO_BREAK
from quotes.models import Engine

DESK, BENCH, OWNER = to_say("Desk"), to_say("Bench"), to_say("owner")
CUSTOMER, OTHERS, DONE = to_say("Customer"), to_say("Others"), to_say("Done")
"""Who must act; it is done, where nobody must."""


@dataclass(frozen=True, slots=True)
class Item:
    """One line. `since` is when it began; `must` says that it is for today."""

    who: str
    what: str
    page: str
    key: int | None = None
    engine: tuple[str, str] = ("", "")
    """Its type in words, and its number."""
    amount: Decimal | None = None
    since: datetime | None = None
    must: bool = False

    @property
    def waited(self) -> str:
        """How long it has waited, in days of the calendar."""
        if self.since is None:
            return ""
        days = (timezone.localdate() - timezone.localdate(self.since)).days
        return say("today") if days <= 0 else say_count("{count} day", "{count} days", days)


Types = Mapping[str, str]
"""Names of engine types by code."""


def engine_words(engine: Engine, types: Types) -> tuple[str, str]:
    return types.get(engine.type_code, engine.type_code), engine.number


def day_words(day: date) -> str:
    """A day of this year or the next, as one says it."""
    month = say(MONTHS[day.month - 1])
    return say("{day} {month}", day=day.day, month=month).replace(" ", NO_BREAK)
