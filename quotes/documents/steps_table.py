"""The steps of one option for a page on which they open."""

from __future__ import annotations

from dataclasses import dataclass

from quotes.calc.sheet.values import Comparison, Option
from quotes.documents import itemised
from quotes.documents.figures import LEAVE_IT


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step in words, with the way and the keys by which it opens; leaving it is the foot."""

    said: itemised.StepInWords
    way: str
    gross_key: str
    chance_key: str
    key: str = ""
    more_key: str = ""


def steps_table(option: Option, comparison: Comparison) -> tuple[StepRow, ...]:
    """From leaving it, where that is a step below the first, to the safest."""
    return tuple(_row(step, option.tier) for step in itemised.ladder(option, comparison))


def _row(step: itemised.StepInWords, tier: str) -> StepRow:
    if not step.number:
        return StepRow(step, LEAVE_IT, "gross", "chance")
    key = f"step:{step.number}"
    return StepRow(step, tier, f"{key}:gross", f"{key}:chance", key, f"{key}:more")
