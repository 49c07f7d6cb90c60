"""What the assembly record refuses, each with what is wrong and how to mend it."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.said import say, say_count
from quotes.actions.refused import Refused


class RecordClosed(Refused):
    """The record says how the engine was built, and is not written on any more."""

    def __init__(self, number: str) -> None:
        super().__init__(
            say(
                "The assembly record of {number} is closed: what was built stands as it was written. "
                "Work done after it belongs to a new job.",
                number=number,
            )
        )


class RecordNotComplete(Refused):
    """Something is missing; `lacks` are all of it in words."""

    def __init__(self, number: str, lacks: Sequence[str]) -> None:
        self.lacks = tuple(lacks)
        super().__init__(
            say_count(
                "The record of {number} can't be closed, {count} entry is missing: {shown}.",
                "The record of {number} can't be closed, {count} entries are missing: {shown}.",
                len(self.lacks),
                number=number,
                shown=_shown(self.lacks),
            )
        )


class RecordWaits(Refused):
    """The customer has been asked about more work, and his yes would bring more to write down."""

    def __init__(self, number: str, extra: str) -> None:
        super().__init__(
            say(
                "The record of {number} waits for the customer's answer to {extra}: close it when he has "
                "given it, or when the offer is taken back.",
                number=number,
                extra=extra,
            )
        )


class OnlyTheOwner(Refused):
    """A concession is the owner's word alone."""

    def __init__(self) -> None:
        super().__init__(say("Only the owner may let this pass: ask him to sign in and write why."))


def _shown(lacks: Sequence[str]) -> str:
    if len(lacks) <= SHOWN:
        return "; ".join(lacks)
    return say("{some}; and {count} more", some="; ".join(lacks[:SHOWN]), count=len(lacks) - SHOWN)


SHOWN = 3
