"""What the assembly record refuses, each with what is wrong and how to mend it."""

from __future__ import annotations

from collections.abc import Sequence

from quotes.actions.refused import Refused


class RecordClosed(Refused):
    """The record says how the engine was built, and is not written on any more."""

    def __init__(self, number: str) -> None:
        super().__init__(
            f"The assembly record of {number} is closed: what was built stands as it was written. Work done "
            "after it belongs to a new job."
        )


class RecordNotComplete(Refused):
    """Something is missing; `lacks` are all of it in words."""

    def __init__(self, number: str, lacks: Sequence[str]) -> None:
        self.lacks = tuple(lacks)
        what = f"{len(self.lacks)} {'entry is' if len(self.lacks) == 1 else 'entries are'} missing"
        shown = "; ".join(self.lacks[:SHOWN])
        more = f"; and {len(self.lacks) - SHOWN} more" if len(self.lacks) > SHOWN else ""
        super().__init__(f"The record of {number} can't be closed, {what}: {shown}{more}.")


class RecordWaits(Refused):
    """The customer has been asked about more work, and his yes would bring more to write down."""

    def __init__(self, number: str, extra: str) -> None:
        super().__init__(
            f"The record of {number} waits for the customer's answer to {extra}: close it when he has given "
            "it, or when the offer is taken back."
        )


class OnlyTheOwner(Refused):
    """A concession is the owner's word alone."""

    def __init__(self) -> None:
        super().__init__("Only the owner may let this pass: ask him to sign in and write why.")


SHOWN = 3
