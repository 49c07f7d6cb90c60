"""What a scope rule says: a thing that must be done to this engine, and why, for a customer to read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from quotes.calc.ask.request import Request
from quotes.calc.scope.implications import Node

ReasonCode = Literal[
    "reading",
    "finding",
    "event",
    "age",
    "unknown",
    "cycles",
    "rider_safety",
    "tier",
    "asked",
    "every_job",
    "companion",
    "single_use",
    "comes_with",
    "worth_it",
    "coming_back",
]


@dataclass(frozen=True, slots=True)
class Must:
    """One demand of one rule. `pieces` says how much of a machine work is asked; None means all."""

    node: Node
    code: ReasonCode
    sentence: str
    pieces: int | None = None


def marked(request: Request, component: str, sentence: str) -> str:
    """The sentence, with the serial number before it where the part has an age of its own."""
    carried = request.engine.carried.get(component)
    return f"{carried.serial}: {sentence}" if carried else sentence
