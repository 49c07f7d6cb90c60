"""The steps of a job: which may follow which, and which of them moves the job on."""

from __future__ import annotations

from collections.abc import Collection

ORDER = (
    "received",
    "leave_given",
    "stripped",
    "findings",
    "assembling",
    "testing",
    "ready",
    "released",
)
"""Steps in the order in which they usually come; a later one moves the job on, an earlier one does not."""
AGAIN = frozenset({"assembling", "testing", "on_hold", "goes_on"})
"""Steps that may come more than once."""
LEAVES = frozenset({"released", "sent_back"})
"""Steps with which the engine leaves the workshop."""
PAUSES = frozenset({"on_hold", "goes_on"})


def comes_to(now: str, step: str) -> str:
    """The step that the job stands at after this one: it never goes back, but for what is done again."""
    if step in PAUSES:
        return now
    if step in LEAVES or step in AGAIN:
        return step
    return step if now not in ORDER or ORDER.index(step) > ORDER.index(now) else now


def is_done(step: str, done: Collection[str]) -> bool:
    """Whether a step that comes once has been made."""
    return step in done and step not in AGAIN
