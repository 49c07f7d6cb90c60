"""What the bench refuses, each with what is wrong and how to mend it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from decimal import Decimal

from catalogue.calc.said import say
from quotes.actions.refused import Refused
from quotes.calc.bench.again.committed import TOUCHES_IN_WORDS, Touches
from quotes.calc.bench.said import day_of_month, exact, long_day


class MustAsk(Refused):
    """This can't be done within the limit; `reasons` say why the customer must be asked first."""

    def __init__(self, reasons: Sequence[Touches]) -> None:
        self.reasons = tuple(reasons)
        why = say(", and ").join(say(TOUCHES_IN_WORDS[one]) for one in self.reasons)
        super().__init__(
            say("The customer must be asked before this is done: {why}. Offer it to him.", why=why)
        )


class NotBuiltSo(Refused):
    """The owner has said that no engine leaves without its rider-safety work."""

    def __init__(self) -> None:
        super().__init__(
            say(
                "This bears on the rider's safety, and this workshop does not build an engine without "
                "it. Speak with the customer: the work is done, or the engine goes back as it is."
            )
        )


class NotInTheShop(Refused):
    """The engine has left."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say(
                "The engine of {number} has left the workshop: take it in again under a new job.",
                number=number,
            )
        )


class LeaveMissing(Refused):
    """Nothing is undone before the customer has said so."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say(
                "{number} has no leave to strip. Take the customer's word for it first; without it only "
                "the owner may go on, and says why.",
                number=number,
            )
        )


class NoYes(Refused):
    """Nothing is put together before the customer has said yes."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say(
                "{number} has no quote that was said yes to: nothing is put together before that.",
                number=number,
            )
        )


class NotTied(Refused):
    """This quote can't become the job's."""


class WaitsForAnswer(Refused):
    """This work may not go on before the customer has answered."""

    def __init__(self, number: str, words: str) -> None:
        self.number = number
        super().__init__(
            say(
                "This waits for the customer's answer to {number}: {words}. Go on with other work.",
                number=number,
                words=words,
            )
        )


class ClockForgotten(Refused):
    """A clock that was left running is settled by hand; it is never counted by itself."""

    def __init__(self, started: datetime, operation: str) -> None:
        self.started, self.operation = started, operation
        super().__init__(
            say(
                "The clock begun on {day} at {hour} was left running. Say first how long the work really "
                "took.",
                day=day_of_month(started),
                hour=f"{started:%H:%M}",
            )
        )


class LeaveStands(Refused):
    """Leave was given once; what was agreed does not change."""

    def __init__(self, number: str, name: str) -> None:
        super().__init__(
            say(
                "{name} gave leave to strip {number} already: what was agreed then stands.",
                name=name,
                number=number,
            )
        )


class ReportRunsBackwards(Refused):
    """Less service is reported than before, or in another unit."""

    def __init__(self, amount: Decimal, unit: str, on: date) -> None:
        self.amount, self.unit, self.on = amount, unit, on
        super().__init__(
            say(
                "{amount} {unit} was reported on {day} already, and an engine does not run backwards. If "
                "that one was wrong, say that this corrects it.",
                amount=exact(amount.normalize()),
                unit=unit,
                day=long_day(on),
            )
        )


class AlreadyDeclined(Refused):
    """The no was written down, and stands."""

    def __init__(self, number: str, name: str) -> None:
        super().__init__(
            say("{name} said no to {number} already: what was said then stands.", name=name, number=number)
        )


class WasSaidYes(Refused):
    """A yes is taken back on the quote's own terms, not here."""

    def __init__(self, quote: str) -> None:
        super().__init__(
            say(
                "{quote} was said yes to. What is not to be done is taken off by extra work below "
                "nought; what was done is invoiced.",
                quote=quote,
            )
        )


class NotDeclined(Refused):
    """Only an engine whose owner said no goes back as it is."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say(
                "Nobody has said no to {number}: a finished engine leaves with its release note.",
                number=number,
            )
        )


class NoQuote(Refused):
    """There is nothing to work out again."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say(
                "{number} has no quote yet: make one for its engine, or put the job under one, and work "
                "it out again then. What was measured and found is kept.",
                number=number,
            )
        )


class NotStripped(Refused):
    """What is not stripped shows nothing yet."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say("{number} is not stripped and measured yet: make that step first.", number=number)
        )


class OfferedAlready(Refused):
    """This working was offered, or another has taken its place."""

    def __init__(self) -> None:
        super().__init__(say("This working was offered already, or a newer one has taken its place."))


class NothingFound(Refused):
    """There is nothing to tell the customer."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say(
                "{number} has neither a reading nor a finding that stands: there is nothing to report.",
                number=number,
            )
        )
