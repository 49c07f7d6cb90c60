"""The scope rules: each file is one rule with `find(case)`, tested by a file of the same name."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from quotes.calc.scope.case import Case
from quotes.calc.scope.rules import (
    age_at_end,
    asked_for,
    build_cycles,
    every_job,
    finding_says,
    reading_past_limit,
    tier_changes,
    unknown_history,
)
from quotes.calc.scope.rules.base import Must

RULES: tuple[Callable[[Case], Iterator[Must]], ...] = (
    reading_past_limit.find,
    finding_says.find,
    age_at_end.find,
    unknown_history.find,
    build_cycles.find,
    tier_changes.find,
    asked_for.find,
    every_job.find,
)
"""In the order in which a reason is given where several hold."""
