"""Every job: the engine is identified, tested before and after, reported on and recorded; oil is changed."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.said import say
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must

ALWAYS = (
    "intake_check",
    "leakdown_test",
    "drain_fluids",
    "findings_report",
    "leakdown_final",
    "build_record",
)


def find(case: Case) -> Iterator[Must]:
    """The work that no job is without."""
    for operation in ALWAYS:
        if operation in case.catalogue.operations:
            yield Must(("work", operation), "every_job", say("Part of every job."))
