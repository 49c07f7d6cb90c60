"""Checks that the operations of every engine type can be done in some order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from graphlib import CycleError, TopologicalSorter

from catalogue.calc.engine import Operation
from catalogue.calc.fault import Fault
from catalogue.calc.resolve_work import operations
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.said import say
from catalogue.calc.settled import settle


def order_faults(rows: CatalogueRows) -> Iterator[Fault]:
    """One fault per engine type whose operations wait for each other in a loop."""
    for engine_type in rows.engine_types:
        loop = find_loop(operations(settle(rows, engine_type.code)))
        if loop:
            path = say(" before ").join(loop)
            reason = say(
                "on {type} these wait for each other in a loop: {path}", type=engine_type.code, path=path
            )
            yield Fault("operations", loop[0], "requires, after, undo", reason)


def find_loop(work: Mapping[str, Operation]) -> tuple[str, ...]:
    """A loop in the order of `work`, first operation repeated at the end; empty when there is none."""
    try:
        TopologicalSorter(come_first(work)).prepare()
    except CycleError as error:
        return tuple(error.args[1])
    return ()


def come_first(work: Mapping[str, Operation]) -> dict[str, set[str]]:
    """For each operation those that come before it, if they are in the job.

    What it requires comes first, in the chassis too; what undoes a strip comes after the strip.
    """
    before = {
        code: {*operation.requires, *operation.requires_in_chassis, *operation.after}
        for code, operation in work.items()
    }
    for code, operation in work.items():
        for undone_by in operation.undo:
            before[undone_by].add(code)
    return before
