"""Why an action was refused, each with what a person needs to know to go on.

These are answers, not faults of the program, so their names say what happened.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from catalogue.calc.said import say
from quotes.calc.said_days import said_day
from quotes.calc.sheet.issued_values import RevisionChange

if TYPE_CHECKING:
    from quotes.calc.ask.fault import Fault
    from quotes.models import Acceptance, Revision


class Refused(Exception):
    """An action that did nothing. Its text can be shown to the person who asked."""


class StaleDraft(Refused):
    """Somebody else kept a change first. `changes`: theirs (before) against what was sent (after)."""

    def __init__(self, changes: Sequence[RevisionChange], by: str, version: int) -> None:
        self.changes, self.by, self.version = tuple(changes), by, version
        super().__init__(
            say(
                "{name} has changed this since you opened it. Nothing of yours was kept yet: "
                "compare, then keep it again.",
                name=by or say("Somebody"),
            )
        )


class RequestFaults(Refused):
    """The request can't be worked out, or a line that must be in is left out without a refusal."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(" ".join(f"{fault.field}: {fault.value}: {fault.allowed}" for fault in self.faults))


class SetUpMissing(Refused):
    """The workshop is not set up far enough to promise anything."""

    def __init__(self, missing: Sequence[str]) -> None:
        self.missing = tuple(missing)
        super().__init__(say("Before a quote can be issued: {missing}", missing=" ".join(self.missing)))


class ClassNotTicked(Refused):
    """An option breaks the rules of its class and nobody has said that this is known."""

    def __init__(self, breaks: Sequence[tuple[str, tuple[str, ...]]]) -> None:
        self.breaks = tuple(breaks)
        said = "; ".join(f"{name}: {', '.join(map(say, changes))}" for name, changes in self.breaks)
        super().__init__(
            say(
                "The class does not allow what these options change: {said}. Tick that this is known.",
                said=said,
            )
        )


class AlreadyAccepted(Refused):
    """The quote has its yes: it neither changes nor is accepted twice."""

    def __init__(self, acceptance: Acceptance) -> None:
        self.acceptance = acceptance
        super().__init__(
            say(
                "{name} has accepted {option} of this quote already. What comes on top is a quote "
                "of its own.",
                name=acceptance.name,
                option=acceptance.tier_name,
            )
        )


class QuoteClosed(Refused):
    """The workshop has taken the quote back."""

    def __init__(self) -> None:
        super().__init__(say("The workshop has taken this quote back. Please ring us for a new one."))


class Superseded(Refused):
    """A newer revision has been issued. `latest` is the one that stands."""

    def __init__(self, latest: Revision) -> None:
        self.latest = latest
        super().__init__(
            say(
                "Since then we have sent you revision {revision} of this quote: that is the one that stands.",
                revision=latest.index,
            )
        )


class Lapsed(Refused):
    """The offer's last day has passed."""

    def __init__(self, valid_until: date) -> None:
        self.valid_until = valid_until
        super().__init__(
            say(
                "This quote stood until {day}. Prices may have moved since: ask us and we renew it.",
                day=said_day(valid_until),
            )
        )


class NothingNew(Refused):
    """There is nothing to issue that the customer does not hold already."""
