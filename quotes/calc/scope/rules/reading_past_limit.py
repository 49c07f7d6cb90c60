"""A reading past its limit: the component is put right, by machine work where that is possible."""

from __future__ import annotations

from collections.abc import Iterator

from quotes.calc.life.clock import is_past_limit
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must


def find(case: Case) -> Iterator[Must]:
    """One demand for each reading on the wrong side of its limit."""
    for reading in case.request.readings:
        if not is_past_limit(reading) or reading.component not in case.catalogue.components:
            continue
        levels = case.levels.get(reading.component)
        mendable = levels is not None and levels.reconditioned is not None
        where = f"{reading.place}: " if reading.place else ""
        yield Must(
            ("done" if mendable else "new", reading.component),
            "reading",
            f"{where}{reading.quantity} {reading.value} {reading.unit}, limit {reading.limit} "
            f"({reading.limit_source}).",
        )
