"""Why an engine is not handed over yet, each with how to mend it."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.said import say
from quotes.actions.refused import Refused


class NoRecord(Refused):
    """What was built is not written down to its end."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say(
                "The assembly record of {number} is not closed: close it, then hand the engine over.",
                number=number,
            )
        )


class NotLookedOver(Refused):
    """Nobody has taken the last look."""

    def __init__(self, number: str) -> None:
        super().__init__(say("{number} has had no final check: take the last look first.", number=number))


class AgreedSince(Refused):
    """More or less was agreed since the last look."""

    def __init__(self, names: Sequence[str]) -> None:
        self.names = tuple(names)
        super().__init__(
            say(
                "Since the final check it was agreed otherwise about {names}: look once more, so that "
                "only what is really new begins a new life.",
                names=", ".join(names),
            )
        )


class NotPaid(Refused):
    """Something is open, and the owner has not let it go unpaid."""

    def __init__(self, open_sum: str) -> None:
        super().__init__(
            say(
                "{open_sum} is still to pay. Take the payment first; without it only the owner may let "
                "the engine go, in writing.",
                open_sum=open_sum,
            )
        )


class OnlyTheOwner(Refused):
    """An engine goes unpaid by the owner's word only."""

    def __init__(self, open_sum: str) -> None:
        super().__init__(
            say(
                "{open_sum} is still to pay, and only the owner may let the engine go before it is.",
                open_sum=open_sum,
            )
        )


class AlreadyReleased(Refused):
    """It was handed over once."""

    def __init__(self, number: str, to: str) -> None:
        super().__init__(say("It was handed over to {to} under {number} already.", to=to, number=number))


class AgesUnclear(Refused):
    """The engine's record can't be added up."""

    def __init__(self, why: str) -> None:
        super().__init__(
            say(
                "What the engine has run can't be added up ({why}). Change its record on its own page.",
                why=why,
            )
        )


class StillAsked(Refused):
    """Something of the rider's safety waits for the customer's word."""

    def __init__(self, number: str, words: str) -> None:
        super().__init__(
            say(
                "{number} bears on the rider's safety and waits for the customer's word: {words}. Have "
                "his answer first.",
                number=number,
                words=words,
            )
        )
