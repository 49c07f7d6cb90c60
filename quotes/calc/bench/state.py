"""Where a job stands, in words: worked out from its steps, its quote, and what it waits for.

One table serves both: the page asks it about one job's facts, the list asks the database with the same rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields

from catalogue.calc.said import to_say

Wanted = Mapping[str, str | bool]
"""Facts by name, each with what it must be."""


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of a job.

    `step` as in `quotes.models.Step`; `outcome` what becomes of an engine whose owner has said no.
    """

    step: str
    came_again: bool = False
    """The engine has come in again since."""
    held: bool = False
    outcome: str = ""
    said_no: bool = False
    """The quote was declined, and what becomes of the engine is not said yet."""
    quoted_since: bool = False
    """Issued after the findings, or issued again with nothing changed."""
    approved: bool = False
    called_off: bool = False
    """What was said yes to was called off since."""
    extra_waiting: bool = False
    parts_waiting: bool = False
    work_out: bool = False
    """Machine work is out and not back."""
    asked: bool = False
    """An invoice of the build was issued."""
    owes: bool = False


RULES: tuple[tuple[str, Wanted], ...] = (
    (to_say("back for the next"), {"step": "released", "came_again": True}),
    (to_say("in service"), {"step": "released"}),
    (to_say("sent back"), {"step": "sent_back"}),
    (to_say("on hold"), {"held": True}),
    (to_say("declined, to be put back"), {"outcome": "reassembled"}),
    (to_say("declined, goes in boxes"), {"outcome": "in_boxes"}),
    (to_say("declined, to be scrapped"), {"outcome": "scrapped"}),
    (to_say("called off"), {"called_off": True}),
    (to_say("extra work waiting"), {"extra_waiting": True}),
    (to_say("invoiced"), {"step": "ready", "asked": True, "owes": True}),
    (to_say("paid"), {"step": "ready", "asked": True}),
    (to_say("ready"), {"step": "ready"}),
    (to_say("testing"), {"step": "testing"}),
    (to_say("assembling"), {"step": "assembling"}),
    (to_say("waiting for parts"), {"approved": True, "parts_waiting": True}),
    (to_say("waiting for machine work"), {"approved": True, "work_out": True}),
    (to_say("approved"), {"approved": True, "step": "findings"}),
    (to_say("approved"), {"approved": True, "step": "stripped"}),
    (to_say("declined"), {"said_no": True}),
    (to_say("quoted"), {"step": "findings", "quoted_since": True}),
    (to_say("findings issued"), {"step": "findings"}),
    (to_say("stripped and measured"), {"step": "stripped"}),
    (to_say("authorised for teardown"), {"step": "leave_given"}),
    (to_say("received"), {"step": "received"}),
)
"""The first row whose facts are all so says where the job stands."""
FACTS: tuple[str, ...] = tuple(field.name for field in fields(Facts))


def _once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


STATES = _once(word for word, _ in reversed(RULES))
"""Every state once, in the order of the work."""
OURS = frozenset(
    {
        "received",
        "authorised for teardown",
        "stripped and measured",
        "findings issued",
        "approved",
        "declined",
        "declined, to be put back",
        "declined, to be scrapped",
        "called off",
        "ready",
        "paid",
    }
)
"""States in which the next act is ours."""


def job_state(facts: Facts) -> str:
    """Where the job stands; ValueError for a step that is none."""
    for word, wanted in RULES:
        if all(getattr(facts, name) == value for name, value in wanted.items()):
            return word
    raise ValueError(f"no state for {facts}")
