"""What is done at an opening and how the season goes, in words."""

from __future__ import annotations

from collections.abc import Sequence

from quotes.calc.ask.request import Unit
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.season import groups_worked
from quotes.calc.sheet.words import estimate_in_words, listed, times_in_words

BUILD = "the build"
NOTHING_OPENED = "oil, filter and a look"
_WORDS = {
    "bottom_end": "a bottom end",
    "top_end": "a top end",
    "valve_train": "the valve train",
    "gearbox": "the gearbox",
    "clutch": "the clutch",
}
_BOTH = "top and bottom end"
TOLD = 3
"""So many openings are told one by one; more of them are counted."""


def done_in_words(scope: Scope) -> str:
    """The work of an opening by the groups that it works on: a top end and the clutch."""
    groups = groups_worked(scope)
    words = {group: word for group, word in _WORDS.items() if group in groups}
    if {"bottom_end", "top_end"} <= words.keys():
        words = {"both": _BOTH, **{g: w for g, w in words.items() if g not in {"bottom_end", "top_end"}}}
    return listed(list(words.values())) if words else NOTHING_OPENED


def season_in_words(whole: float, unit: Unit, openings: Sequence[tuple[float, str]]) -> str:
    """One sentence: how often it is opened, when and for what."""
    count = len(openings)
    often = f"Opened {times_in_words(count)} in {estimate_in_words(whole, unit)}"
    if count <= TOLD:
        told = "; ".join(f"at {estimate_in_words(at, unit)} {done}" for at, done in openings)
        return f"{often}: {told}."
    every = estimate_in_words(whole / (count + 1), unit)
    deep = sum("bottom end" in done for _, done in openings)
    with_bottom = f"; {times_in_words(deep)} with the bottom end" if deep else ""
    return f"{often}, about every {every}{with_bottom}."
