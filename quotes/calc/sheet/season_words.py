"""What is done at an opening and how the season goes, in words."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Unit
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.season import groups_worked
from quotes.calc.sheet.words import estimate_in_words, listed, times_in_words

BUILD = to_say("the build")
NOTHING_OPENED = to_say("oil, filter and a look")
_WORDS = {
    "bottom_end": to_say("a bottom end"),
    "top_end": to_say("a top end"),
    "valve_train": to_say("the valve train"),
    "gearbox": to_say("the gearbox"),
    "clutch": to_say("the clutch"),
}
_BOTH = to_say("top and bottom end")
TOLD = 3
"""So many openings are told one by one; more of them are counted."""


def done_in_words(scope: Scope) -> str:
    """The work of an opening by the groups that it works on: a top end and the clutch."""
    groups = groups_worked(scope)
    words = {group: word for group, word in _WORDS.items() if group in groups}
    if {"bottom_end", "top_end"} <= words.keys():
        words = {"both": _BOTH, **{g: w for g, w in words.items() if g not in {"bottom_end", "top_end"}}}
    return listed([say(word) for word in words.values()]) if words else say(NOTHING_OPENED)


def season_in_words(whole: float, unit: Unit, openings: Sequence[tuple[float, str]]) -> str:
    """One sentence: how often it is opened, when and for what."""
    count = len(openings)
    often = {"times": times_in_words(count), "amount": estimate_in_words(whole, unit)}
    if count <= TOLD:
        told = (
            say("at {amount} {done}", amount=estimate_in_words(at, unit), done=done) for at, done in openings
        )
        return say("Opened {times} in {amount}: {told}.", **often, told="; ".join(told))
    every = estimate_in_words(whole / (count + 1), unit)
    deep = sum(any(say(word) in done for word in (_BOTH, _WORDS["bottom_end"])) for _, done in openings)
    if not deep:
        return say("Opened {times} in {amount}, about every {every}.", **often, every=every)
    return say(
        "Opened {times} in {amount}, about every {every}; {deep} with the bottom end.",
        **often,
        every=every,
        deep=times_in_words(deep),
    )
