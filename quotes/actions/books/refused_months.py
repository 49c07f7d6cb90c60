"""Why something may not be dated as it was, or the books not begin as they were to."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from catalogue.calc.said import say
from quotes.actions.refused import Refused
from quotes.calc.said_days import said_day, said_month


class MonthClosed(Refused):
    """The month of that day is closed: nothing more is dated into it. `first_free`: the next free day."""

    def __init__(self, day: date, first_free: date) -> None:
        self.day, self.first_free = day, first_free
        super().__init__(
            say(
                "{day} is in a month that is closed. The first free day is {first_free}; or let the owner "
                "open the month again.",
                day=said_day(day),
                first_free=said_day(first_free),
            )
        )


class EarlierDay(Refused):
    """The document before it bears a later day: days go in the order of the numbers."""

    def __init__(self, day: date, number: str, last: date) -> None:
        self.day, self.number, self.last = day, number, last
        super().__init__(
            say(
                "The machine says it is {day}, but {number}, the last of its series, bears {last}. Nothing "
                "was issued: days go in the order of the numbers. Set the machine's clock right; if {last} "
                "was the wrong day, the owner issues this one with the reason in writing.",
                day=said_day(day),
                number=number,
                last=said_day(last),
            )
        )


class EarlierDayIsTheOwners(Refused):
    """Somebody else than the owner gave a reason for an earlier day."""

    def __init__(self) -> None:
        super().__init__(say("Only the owner may issue a document on an earlier day than the one before it."))


class MonthNotOver(Refused):
    """A month is closed only after its last day."""

    def __init__(self, month: date) -> None:
        super().__init__(
            say("{month} is not over yet: it can be closed after its last day.", month=said_month(month))
        )


class OpeningOutOfBalance(Refused):
    """The balances that the books would begin with do not balance. `difference`: debits less credits."""

    def __init__(self, debits: Decimal, credits: Decimal) -> None:
        self.debits, self.credits, self.difference = debits, credits, debits - credits
        super().__init__(
            say(
                "Debits come to {debits} and credits to {credits}: they differ by {difference}. "
                "Nothing was kept.",
                debits=f"{debits:f}",
                credits=f"{credits:f}",
                difference=f"{abs(self.difference):f}",
            )
        )


class OpeningEntered(Refused):
    """The books have their opening balances of that day."""

    def __init__(self, day: date) -> None:
        super().__init__(say("The opening balances of {day} are in the books already.", day=said_day(day)))
