"""The first steps of an empty workshop, up to its first quote: what is done and what comes next."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from catalogue.calc.said import say, to_say


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
    (
        NAME,
        to_say("Give the workshop its name, address and telephone"),
        to_say("They head every quote."),
        "settings",
    ),
    (
        TAX,
        to_say("Write your tax codes and choose one for each kind of line"),
        to_say("No price is whole without."),
        "settings",
    ),
    (
        PRICES,
        to_say("Load the price list that ships"),
        to_say("Four engine types; every figure is yours to change."),
        "",
    ),
    (
        QUOTE,
        to_say("Take down the first call and keep it as a quote"),
        to_say("The options stand there at once."),
        "new-quote",
    ),
    (ISSUE, to_say("Issue it"), to_say("Only then it has a number and can be sent."), "quote-list"),
)


def first_steps(done: Collection[str]) -> tuple[FirstStep, ...]:
    """Every step with whether it is done; none where all are, for then nobody needs to be led."""
    steps = tuple(
        FirstStep(code, say(words), say(why), page, code in done) for code, words, why, page in _STEPS
    )
    return () if all(step.done for step in steps) else steps


def next_step(steps: Collection[FirstStep]) -> str:
    """The code of the first step that is not done."""
    return next((step.code for step in steps if not step.done), "")
