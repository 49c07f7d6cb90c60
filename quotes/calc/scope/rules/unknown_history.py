"""Unknown history: a component judged by its life counts as used up."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.said import say
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must, marked


def find(case: Case) -> Iterator[Must]:
    """One demand for each component judged by life whose age nobody knows."""
    for code, component in case.catalogue.components.items():
        if component.judged_by == "life" and not case.used[code].known:
            sentence = say("Its age is not known: counted as used up.")
            yield Must(("new", code), "unknown", marked(case.request, code, sentence))
