"""The first steps of an empty workshop, up to its first quote: what is done and what comes next."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FirstStep:
    """One step. `page` is where it is done; none where the panel has a button of its own for it."""

    code: str
    words: str
    why: str
    page: str
    done: bool


NAME, TAX, PRICES, QUOTE, ISSUE = "name", "tax", "prices", "quote", "issue"
_STEPS = (
    (NAME, "Give the workshop its name, address and telephone", "They head every quote.", "settings"),
    (
        TAX,
        "Write your tax codes and choose one for each kind of line",
        "No price is whole without.",
        "settings",
    ),
    (PRICES, "Load the price list that ships", "Four engine types; every figure is yours to change.", ""),
    (
        QUOTE,
        "Take down the first call and keep it as a quote",
        "The options stand there at once.",
        "new-quote",
    ),
    (ISSUE, "Issue it", "Only then it has a number and can be sent.", "quote-list"),
)


def first_steps(done: Collection[str]) -> tuple[FirstStep, ...]:
    """Every step with whether it is done; none where all are, for then nobody needs to be led."""
    steps = tuple(FirstStep(code, words, why, page, code in done) for code, words, why, page in _STEPS)
    return () if all(step.done for step in steps) else steps


def next_step(steps: Collection[FirstStep]) -> str:
    """The code of the first step that is not done."""
    return next((step.code for step in steps if not step.done), "")
