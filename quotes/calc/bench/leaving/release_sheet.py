"""The release note and the rider's card as they are printed: what left, how, to whom, what is due next."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.said import to_say
from quotes.calc.ask.request import Unit, Value
from quotes.calc.bench.leaving.final_questions import Answer
from quotes.calc.bench.leaving.running_in import RunningIn
from quotes.calc.sheet.issued_values import Party

CAUTIONS: tuple[str, ...] = (
    to_say(
        "An engine that is raced carries no warranty against failure, nor for lost entry fees or "
        "a lost meeting: that lies in its use."
    ),
    to_say(
        "Our workmanship is put right where it is shown to be the cause and the engine comes "
        "back to us sealed and unopened."
    ),
    to_say("Parts carry their maker's warranty only; parts that you brought yourself carry none of ours."),
    to_say(
        "Power, life and chances are estimates from stated assumptions, not promises. Over-revs, "
        "a crash, lost oil or detonation are outside them: stop, and ring us before the next "
        "start."
    ),
    to_say(
        "Road engines and private customers have rights that no paper takes away: local law goes "
        "before these words."
    ),
)
"""What is said at every hand-over; the same as on quote and invoice."""


class DueLine(Value):
    """One component that falls due: what is to be done, and after how much service from now."""

    name: str
    act: Literal["renew", "measure", "change"]
    amount: Decimal
    unit: Unit
    on: date
    before_event: int | None = None


class DeclinedLine(Value):
    """Advice that was not taken, as it is printed."""

    words: str
    risk: str
    said_by: str
    how: str
    on: date
    rider_safety: bool


class ReleaseSheet(Value):
    """Everything that note and card say. Sums with tax, in `currency`.

    `open_sum` is what was still to pay, with the owner's word for it in `unpaid_consent`.
    """

    number: str
    job: str
    workshop: Party
    customer: Party
    paper: Literal["A4", "Letter"]
    language: str = "en"
    """The one that the paper is written in."""
    currency: str
    decimals: int
    on: date
    engine_name: str
    engine_number: str
    build: str = ""
    """Which option of which quote was built; empty for work without one."""
    released_to: str
    shown: str
    seal: str = ""
    released_by: str
    open_sum: Decimal
    unpaid_consent: str = ""
    consent_by: str = ""
    old_parts: str
    hours_quoted: Decimal
    hours_clocked: Decimal
    service: str = ""
    """What the engine had run, in words; empty where nobody knows."""
    record_closed_on: date
    record_closed_by: str
    checked_on: date
    checked_by: str
    checks: tuple[Answer, ...]
    renewed: tuple[str, ...]
    reconditioned: tuple[str, ...]
    declined: tuple[DeclinedLine, ...]
    dues: tuple[DueLine, ...]
    due_unknown: str = ""
    """Why nothing can be said of what falls due, where that is so."""
    card: RunningIn
