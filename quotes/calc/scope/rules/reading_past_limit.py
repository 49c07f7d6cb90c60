"""A reading past its limit: the component is put right, by machine work where that is possible."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.said import say
from quotes.calc.life.clock import is_past_limit
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must
from quotes.calc.sheet.unit_words import as_written


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
            where
            + say(
                "{quantity} {value} {unit}, limit {limit} ({source}).",
                quantity=reading.quantity,
                value=as_written(reading.value),
                unit=reading.unit,
                limit=as_written(reading.limit),
                source=say(reading.limit_source),
            ),
        )
