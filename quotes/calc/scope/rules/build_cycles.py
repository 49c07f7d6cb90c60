"""Build cycles: a fastener or shell that has been undone and used again once is not used a third time."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.said import say
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must

CYCLES_ALLOWED = 1
"""Re-uses in service of a part whose re-use is limited; one maker's rule, as a default."""


def find(case: Case) -> Iterator[Must]:
    """One demand for each component of limited re-use whose cycles are used."""
    engine = case.request.engine
    for code in dict.fromkeys((*engine.build_cycles, *engine.carried)):
        component, cycles = case.catalogue.components.get(code), engine.cycles_of(code)
        if component is not None and component.single_use == "policy" and cycles >= CYCLES_ALLOWED:
            sentence = say("Used again once already: its build cycles are up.")
            if cycles != 1:
                sentence = say("Used again {count} times already: its build cycles are up.", count=cycles)
            yield Must(("new", code), "cycles", sentence)
