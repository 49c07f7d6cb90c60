"""The operations of a job as a set: their hours by kind of work, and which are part of a larger one.

Because it is a set, strip-down that two jobs share is counted once. Hours are decimal bench hours of one
competent builder, parts in hand; they are workshop estimates and may be off by a quarter either way.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import get_args

from catalogue.calc.engine import EngineCatalogue, KindOfWork, Operation

NO_HOURS = Decimal(0)


@dataclass(frozen=True, slots=True)
class IncludedThere:
    """An operation that is no work of its own where a larger one is in the job."""

    operation: str
    larger: str
    reason: str


INCLUDED_THERE = (
    IncludedThere(
        "clutch_plates_swap", "clutch_out", "the plates come out and go back with the clutch: included there"
    ),
    IncludedThere(
        "output_seal_swap", "cases_split", "the seal is renewed as the cases are joined: included there"
    ),
)
"""Common practice, no source: the notes on the two operations say the same."""


class UnknownOperationError(LookupError):
    """The engine type has no such operation."""

    def __init__(self, code: str, engine_type: str) -> None:
        self.code = code
        super().__init__(f"no operation {code!r} on engine type {engine_type!r}")


def operation_of(catalogue: EngineCatalogue, code: str) -> Operation:
    """The operation; UnknownOperationError where the engine type has none of that code."""
    try:
        return catalogue.operations[code]
    except KeyError:
        raise UnknownOperationError(code, catalogue.engine_type.code) from None


def included_elsewhere(operations: Collection[str]) -> set[str]:
    """Of these operations, those that are included in another of them."""
    return {one.operation for one in INCLUDED_THERE if one.larger in operations}


def hours_by_kind(catalogue: EngineCatalogue, operations: Iterable[str]) -> dict[KindOfWork, Decimal]:
    """Bench hours by kind of work, in the order of the trade; kinds without work are absent."""
    kinds: tuple[KindOfWork, ...] = get_args(KindOfWork)
    totals = dict.fromkeys(kinds, NO_HOURS)
    present: set[KindOfWork] = set()
    for code in set(operations):
        operation = operation_of(catalogue, code)
        totals[operation.kind] += operation.hours
        present.add(operation.kind)
    return {kind: total for kind, total in totals.items() if kind in present}
