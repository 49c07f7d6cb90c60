"""Why a change of the catalogue was refused, with what a person needs to know to go on.

These are answers, not faults of the program, so their names say what happened.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from catalogue.calc.fault import Fault
from catalogue.calc.said import say
from catalogue.models.choices import KINDS


class Refused(Exception):
    """A change that did nothing. Its text can be shown to the person who asked."""


class ChecksFailed(Refused):
    """The rows would contradict each other. `faults` say where and why."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class OtherCurrency(Refused):
    """Prices that the workshop set itself are in another currency than the one to be loaded."""

    def __init__(self, present: str, wanted: str, codes: Sequence[str]) -> None:
        self.codes = tuple(codes)
        some = ", ".join(self.codes[:5]) + (" and more" if len(self.codes) > 5 else "")
        super().__init__(
            f"the catalogue is in {present} and holds prices of your own ({some}); loading it in {wanted} "
            "would mix the two. Load it in the same currency, or take the shipped prices with --overwrite."
        )


@dataclass(frozen=True, slots=True)
class Theirs:
    """A field that somebody else changed meanwhile: as it was, as it is, and who did it."""

    field: str
    was: Any
    now: Any
    by: str


class StaleEntry(Refused):
    """Somebody else changed the entry after it was looked at."""

    def __init__(self, changes: Sequence[Theirs], version: int) -> None:
        self.changes, self.version = tuple(changes), version
        who = ", ".join(dict.fromkeys(change.by for change in self.changes if change.by)) or say("Somebody")
        super().__init__(
            say(
                "{who} has changed this since you opened it. Nothing of yours was kept yet: compare, then "
                "keep it again.",
                who=who,
            )
        )


class Gone(Refused):
    """There is no such entry."""

    def __init__(self, kind: str, code: str) -> None:
        super().__init__(
            say("There is no {code} among the {many} any more.", code=repr(code), many=KINDS[kind])
        )


class AlreadyThere(Refused):
    """The code is taken."""

    def __init__(self, kind: str, code: str) -> None:
        self.code = code
        super().__init__(
            say(
                "There is a {code} among the {many} already: take another code.",
                code=repr(code),
                many=KINDS[kind],
            )
        )
