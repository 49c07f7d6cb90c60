"""Which work waits when a part of a job must be asked about, and which goes on."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.order import comes_before
from quotes.calc.work.work_set import operation_of

KEEPS_ON = frozenset({"office", "strip", "clean", "inspect"})
"""Opening, cleaning and measuring changes nothing that the answer could undo."""


def stopped_work(
    catalogue: EngineCatalogue, operations: Iterable[str], components: Collection[str]
) -> tuple[str, ...]:
    """The job's operations that wait, in the catalogue's order.

    Those are the fitting and testing of the components in question, and all that can only come after it:
    what closes over them. The rest of the job goes on.
    """
    job = {code: operation_of(catalogue, code) for code in operations if code in catalogue.operations}
    about = {
        code
        for code, operation in job.items()
        if set(operation.components) & set(components) or code in _fitting(catalogue, components)
    }
    waiting = {code for code in about if job[code].kind not in KEEPS_ON}
    closers = {undo for code in about for undo in job[code].undo if undo in job}
    stopped = waiting | closers
    before = comes_before(job.values())
    while more := {code for code in job if code not in stopped and before[code] & stopped}:
        stopped |= more
    return tuple(code for code in catalogue.operations if code in stopped and job[code].kind not in KEEPS_ON)


def _fitting(catalogue: EngineCatalogue, components: Collection[str]) -> set[str]:
    """Operations that go with renewing the components, and those that undo their way in."""
    known = [catalogue.components[code] for code in components if code in catalogue.components]
    ways = {code for part in known for code in (*part.access_operations, *part.with_operations)}
    undone = {
        undo for code in ways if code in catalogue.operations for undo in catalogue.operations[code].undo
    }
    return ways | undone
