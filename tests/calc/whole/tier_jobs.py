"""The whole list of a tier as a job, as the trade prices it: nothing left out because it is still good.

Quantities of machine work keep the tier's share of the full count exactly; `in_whole_pieces` is what is
really sent. Closure, parts and prices are the product's own.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue, Tier
from catalogue.calc.money import round_half_up
from quotes.calc.ask.request import Delivered
from quotes.calc.money.lines import consumables_line, labour_line, machine_work_line, part_line
from quotes.calc.money.price import part_of
from quotes.calc.money.priced import Priced
from quotes.calc.shop import Shop
from quotes.calc.work.bought import to_buy
from quotes.calc.work.order import order_of_work
from quotes.calc.work.work_set import hours_by_kind
from tests.calc.trade_list import cheapest_way_in, job_closure, taken_new

CASES_OPEN = "cases_split"
"""The operation that opens the bottom end."""


@dataclass(frozen=True, slots=True)
class Job:
    """What is done, renewed, reconditioned, bought and sent out, all codes in the catalogue's order."""

    operations: tuple[str, ...]
    """In a legal order of work."""
    renewed: tuple[str, ...]
    reconditioned: tuple[str, ...]
    parts: Mapping[str, int | None]
    """Quantity to buy by component, in the price list's unit; None is the full set."""
    machine_work: Mapping[str, Decimal]
    """Units by machine work, not rounded to whole pieces."""
    performance: frozenset[str]
    """Components that are bought in performance grade."""


def tier_list_job(catalogue: EngineCatalogue, tier_code: str, delivered: Delivered) -> Job:
    """The whole list of a tier; KeyError for an unknown one.

    What is `left_out_unless_opened` is left out unless the tier's own work opens the cases; then it comes
    with its own operations. Parts renewed only if due are not on the list, nor those whose re-use is the
    shop's choice.
    """
    tier = catalogue.tiers[tier_code]
    renewed = _renewed(catalogue, tier, delivered)
    operations = _operations(catalogue, tier, renewed, delivered)
    ordered = order_of_work(catalogue, operations)
    return Job(
        operations=ordered,
        renewed=renewed,
        reconditioned=tier.recondition,
        parts=to_buy(catalogue, renewed, taken_new(catalogue, operations)),
        machine_work=machine_work_of(catalogue, tier, renewed),
        performance=tier.performance_grade,
    )


def _renewed(catalogue: EngineCatalogue, tier: Tier, delivered: Delivered) -> tuple[str, ...]:
    opened = tier.opens_bottom_end or CASES_OPEN in job_closure(
        catalogue, tier.operations, delivered=delivered
    )
    left_out = frozenset() if opened else tier.left_out_unless_opened
    return tuple(code for code in catalogue.components if code in tier.renew and code not in left_out)


def _operations(
    catalogue: EngineCatalogue, tier: Tier, renewed: Iterable[str], delivered: Delivered
) -> frozenset[str]:
    """The tier's operations and a way in to all that it renews, with the work on what was let in."""
    wanted = list(tier.operations)
    for code in renewed:
        if code in tier.left_out_unless_opened:
            wanted += catalogue.components[code].with_operations
        wanted += cheapest_way_in(catalogue, code, wanted, delivered=delivered)
    return job_closure(catalogue, wanted, delivered=delivered)


def machine_work_of(catalogue: EngineCatalogue, tier: Tier, renewed: Iterable[str]) -> dict[str, Decimal]:
    """Units sent out: the tier's share of each full count, and what renewed and reconditioned parts bring.

    Where several ask for one machine work the largest share is sent, not their sum: it is the same work.
    """
    asked: list[tuple[str, Decimal]] = [
        (one.code, catalogue.machine_work[one.code].quantity * Decimal(str(one.share)).normalize())
        for one in tier.machine_work
    ]
    for code in renewed:
        component = catalogue.components[code]
        pieces = catalogue.engine_type.pieces.get(component.machine_work_piece or "")
        asked += [(work, _count(catalogue, work, pieces)) for work in component.machine_work]
    for code in tier.recondition:
        recondition = catalogue.components[code].recondition
        if recondition is not None:
            pieces = recondition.machine_work_quantity
            asked += [(work, _count(catalogue, work, pieces)) for work in recondition.machine_work]
    units: dict[str, Decimal] = {}
    for work, count in asked:
        units[work] = max(count, units.get(work, Decimal(0)))
    return units


def _count(catalogue: EngineCatalogue, work: str, pieces: int | None) -> Decimal:
    return Decimal(catalogue.machine_work[work].quantity if pieces is None else pieces)


def in_whole_pieces(job: Job) -> Job:
    """The job as it is really sent out: half a piece and more is one, and never none."""
    units = {code: max(round_half_up(count, 0), Decimal(1)) for code, count in job.machine_work.items()}
    return replace(job, machine_work=units)


def priced_job(catalogue: EngineCatalogue, job: Job, shop: Shop) -> tuple[Priced, ...]:
    """The job's lines: bench work by kind, parts, machine work, consumables.

    Raises MissingPriceError for a part, a rate or a tax code that is not there.
    """
    lines = [
        labour_line(kind, hours, shop) for kind, hours in hours_by_kind(catalogue, job.operations).items()
    ]
    lines += [
        part_line(part_of(catalogue, code, job.performance), quantity, shop)
        for code, quantity in job.parts.items()
    ]
    lines += [
        machine_work_line(catalogue.machine_work[code], units, shop)
        for code, units in job.machine_work.items()
    ]
    with_labour = consumables_line(lines, shop)
    return (*lines, with_labour) if with_labour else tuple(lines)
