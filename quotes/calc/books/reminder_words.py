"""What a reminder says to begin with, by how often the customer was asked; it may be written anew."""

from __future__ import annotations

from catalogue.calc.said import say, to_say

DAYS_TO_PAY = 10
"""From the day of the reminder; the form begins with it."""
_FIRST = to_say(
    "The documents below were to be paid by the days beside them, and are still open. "
    "That may have been overlooked. If you have paid in the meantime, you need do nothing more."
)
_AGAIN = to_say(
    "We have asked for this before and have had neither payment nor answer. "
    "Please pay by the day below. If something is wrong with what we ask for, tell us what it is."
)
_LAST = to_say(
    "We have asked for this more than once. Please pay by the day below, or tell us by then why you do not. "
    "After it we take the steps that our terms and the law leave us, and they may cost you more."
)


def starting_words_of(time: int) -> str:
    """In the language that is spoken at the moment."""
    return say({1: _FIRST, 2: _AGAIN}.get(time, _LAST))


def title_of(time: int) -> str:
    """Such as: second reminder."""
    names = {1: say("Payment reminder"), 2: say("Second payment reminder"), 3: say("Third payment reminder")}
    return names.get(time) or say("Payment reminder, number {time}", time=time)
