"""Asked for: what the customer or the desk wants done, whatever the sums say."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.said import say
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must


def find(case: Case) -> Iterator[Must]:
    """One demand for each component that was asked for."""
    for code in sorted(case.include):
        if code in case.catalogue.components:
            yield Must(("new", code), "asked", say("You asked for it."))
