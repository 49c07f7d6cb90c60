"""Bench work at the hours clocked instead of those quoted."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.money.price import MissingPriceError
from quotes.calc.sheet.line_values import WorkStep

LABOUR_KEY = "option:labour:"
NOT_QUOTED = to_say("Clocked; not in the quote.")
NOT_CLOCKED = to_say("No hours were clocked: at the hours quoted.")
OTHER_WORK = WorkStep(code="", name=to_say("Other bench work"), kind="assemble", hours=ZERO)
"""Hours clocked on no operation, charged as assembly."""


@dataclass(frozen=True, slots=True)
class ClockRates:
    """What is needed to price hours: operations that were quoted, all others, rates by kind of work."""

    quoted: Sequence[WorkStep]
    """`Option.work`."""
    others: Mapping[str, WorkStep]
    """Operations of the catalogue by their code."""
    labour: Mapping[str, Decimal]
    """Per hour, by kind of work."""
    tax_code: str
    """Of labour."""
    paid_otherwise: Collection[str] = ()
    """Operations within a fixed price, such as those of a ticked extra: hours on them bring no line."""
    only_clocked: bool = False
    """Bench work on which nothing was clocked is left out, for it will not be done."""


def with_clocked_hours(
    lines: Sequence[DraftLine], clocked: Mapping[str, Decimal], rates: ClockRates
) -> tuple[DraftLine, ...]:
    """The lines with bench work at the hours clocked by operation, and a line for each that was not quoted.

    A labour line of the option stands for all quoted operations of its kind of work, one that names an
    operation for that one. Where nothing was clocked for a line it stays as quoted and says so. Raises
    MissingPriceError where the shop has no rate for a kind of work.
    """
    by_line = _hours_by_line(lines, clocked, rates)
    found = {operation for operations in by_line.values() for operation in operations}
    rest = {
        o: hours for o, hours in clocked.items() if hours and o not in found and o not in rates.paid_otherwise
    }
    if rates.only_clocked:
        lines = [line for line in lines if line.kind != "labour" or by_line.get(line.key)]
    return (*(_clocked(line, by_line.get(line.key)) for line in lines), *_unquoted(rest, rates))


def _hours_by_line(
    lines: Iterable[DraftLine], clocked: Mapping[str, Decimal], rates: ClockRates
) -> dict[str, dict[str, Decimal]]:
    """Hours by operation for the key of each labour line that the clock may change."""
    own = {line.operation: line.key for line in lines if line.kind == "labour" and line.operation}
    keys = {line.key for line in lines if line.kind == "labour"}
    kinds = {step.code: f"{LABOUR_KEY}{step.kind}" for step in rates.quoted}
    for_one = {step.code: f"{LABOUR_KEY}{step.code}" for step in rates.quoted}
    found: dict[str, dict[str, Decimal]] = {
        key: {} for key in (*own.values(), *kinds.values(), *for_one.values())
    }
    for operation, hours in clocked.items():
        for key in (own.get(operation), for_one.get(operation), kinds.get(operation)):
            if key in keys and key is not None:
                found[key][operation] = hours
                break
    return found


def _clocked(line: DraftLine, hours: Mapping[str, Decimal] | None) -> DraftLine:
    """`hours` None: not a line that the clock may change."""
    if hours is None or line.kind != "labour":
        return line
    total = sum(hours.values(), ZERO)
    if not total:
        return line.model_copy(update={"note": line.note or say(NOT_CLOCKED)})
    return line.model_copy(update={"quantity": total})


def _unquoted(clocked: Mapping[str, Decimal], rates: ClockRates) -> Iterable[DraftLine]:
    for operation, hours in clocked.items():
        step = rates.others.get(operation, OTHER_WORK)
        if step.kind not in rates.labour:
            raise MissingPriceError(f"the workshop has no labour rate for {step.kind!r}")
        yield DraftLine(
            key=f"clock:{operation}",
            kind="labour",
            description=say(step.name)[:200],
            note=say(NOT_QUOTED),
            quantity=hours,
            unit="h",
            unit_price=rates.labour[step.kind],
            tax_code=rates.tax_code,
            operation=operation,
        )
