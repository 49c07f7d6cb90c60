"""Checks the values of single rows that their types alone can't: sums, order of bands, doubles."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from catalogue.calc.engine import DRIVERS, LOAD_CAUSES
from catalogue.calc.fault import Fault
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.engines import DutyRow, LoadLawRow, TierRow
from catalogue.calc.rows.trade import PartRow
from catalogue.calc.rows.wear import ComponentRow, LimitRow
from catalogue.calc.rows.work import MachineWorkRow
from catalogue.calc.said import say

ROUNDING = 1e-6
"""Shares are written with a few decimals: their sum may be off by the last bit."""
CODED = (
    "sources",
    "suppliers",
    "engine_types",
    "components",
    "operations",
    "machine_work",
    "tiers",
    "load_laws",
    "duties",
    "findings",
    "events",
    "limits",
    "facts",
)


def value_faults(rows: CatalogueRows) -> tuple[Fault, ...]:
    """Doubles, and every value that contradicts another of its own row."""
    faults: list[Fault] = []
    for kind in CODED:
        faults += _doubles(kind, [row.code for row in getattr(rows, kind)])
    faults += _doubles("parts", [part.number for part in rows.parts])
    for component in rows.components:
        faults += component_faults(component)
    for work in rows.machine_work:
        faults += machine_work_faults(work)
    for part in rows.parts:
        faults += part_faults(part)
    for tier in rows.tiers:
        faults += tier_faults(tier)
    for duty in rows.duties:
        faults += duty_faults(duty)
    for limit in rows.limits:
        faults += limit_faults(limit)
    for law in rows.load_laws:
        faults += load_law_faults(law)
    missing = _missing_laws(rows.load_laws)
    return (*faults, *missing, *_ranks(rows.tiers), *_same_place(rows.parts))


def _doubles(kind: str, codes: Iterable[str]) -> Iterator[Fault]:
    for code, times in Counter(codes).items():
        if times > 1:
            yield Fault(
                kind, code, "code", say("is there {count} times; a code names one entry", count=times)
            )


def _same_place(parts: Iterable[PartRow]) -> Iterator[Fault]:
    seen: dict[tuple[str, str, str], str] = {}
    for part in parts:
        place = (part.engine_type, part.component, part.grade)
        first = seen.setdefault(place, part.number)
        if first != part.number:
            reason = say("{number} is the same component, type and grade", number=repr(first))
            yield Fault("parts", part.number, "component", reason)


def component_faults(row: ComponentRow) -> Iterator[Fault]:
    """Causes of wear that don't add up to 1, and lives out of order."""
    total = sum(row.drivers.values())
    if abs(total - 1) > ROUNDING:
        reason = say("the shares add up to {total}, not to 1", total=f"{total:.6g}")
        yield Fault("components", row.code, "drivers", reason)
    if not row.lives:
        reason = say("a component needs a life in miles or in hours_mx")
        yield Fault("components", row.code, "lives", reason)
    for basis, life in row.lives.items():
        yield from _band("components", row.code, f"lives.{basis}", (life.low, life.typical, life.high))


def machine_work_faults(row: MachineWorkRow) -> Iterator[Fault]:
    """A price band or a lead time out of order."""
    yield from _band("machine_work", row.code, "cost", (row.cost.low, row.cost.typical, row.cost.high))
    yield from _lead("machine_work", row.code, row.lead_typical_days, row.lead_slow_days)


def part_faults(row: PartRow) -> Iterator[Fault]:
    """Lead times out of order, two preferred offers, two offers of one supplier."""
    for place, offer in enumerate(row.offers):
        lead = (offer.lead_typical_days, offer.lead_slow_days)
        yield from _lead("parts", row.number, *lead, field=f"offers.{place}.lead_slow_days")
    if sum(offer.preferred for offer in row.offers) > 1:
        yield Fault("parts", row.number, "offers", say("more than one offer is marked preferred"))
    for supplier, times in Counter(offer.supplier for offer in row.offers).items():
        if times > 1:
            reason = say("{supplier} offers it {count} times", supplier=repr(supplier), count=times)
            yield Fault("parts", row.number, "offers", reason)


def tier_faults(row: TierRow) -> Iterator[Fault]:
    """A band out of order, or a cause of wear without its factor."""
    gain = row.power_gain_pct
    yield from _band("tiers", row.code, "power_gain_pct", (gain.low, gain.typical, gain.high))
    yield from _all_drivers("tiers", row.code, "life_factors", row.life_factors)


def load_law_faults(row: LoadLawRow) -> Iterator[Fault]:
    """A power of load outside of what is published."""
    band = (row.exponent.low, row.exponent.typical, row.exponent.high)
    yield from _band("load_laws", row.code, "exponent", band)


def _missing_laws(laws: Iterable[LoadLawRow]) -> Iterator[Fault]:
    there = {row.code for row in laws}
    for cause in LOAD_CAUSES:
        if cause not in there:
            yield Fault("load_laws", cause, "exponent", say("nothing says how life falls with this load"))


def _ranks(tiers: Sequence[TierRow]) -> Iterator[Fault]:
    for rank, times in Counter(tier.rank for tier in tiers).items():
        if times > 1:
            named = ", ".join(tier.code for tier in tiers if tier.rank == rank)
            yield Fault(
                "tiers", named, "rank", say("{count} tiers share the rank {rank}", count=times, rank=rank)
            )


def duty_faults(row: DutyRow) -> Iterator[Fault]:
    """A cause of wear without its severity, a season without events or in the wrong unit."""
    yield from _all_drivers("duties", row.code, "severity", row.severity)
    if row.season.events is None:
        yield Fault("duties", row.code, "season.events", say("how many events a season has is missing"))
    for name, occasion in (("event", row.event), ("season", row.season)):
        if row.basis == "miles" and occasion.miles is None:
            reason = say("lives go by miles here, so miles are needed")
            yield Fault("duties", row.code, f"{name}.miles", reason)
        for unit, band in (("miles", occasion.miles), ("hours", occasion.hours)):
            if band is not None:
                yield from _band("duties", row.code, f"{name}.{unit}", (band.low, band.typical, band.high))


def limit_faults(row: LimitRow) -> Iterator[Fault]:
    """A limit on the good side of the standard, or a watch figure outside of the two."""
    new = row.standard.low if row.bad_when == "below" else row.standard.high
    sign = -1 if row.bad_when == "below" else 1
    if row.standard.low > row.standard.high:
        yield Fault("limits", row.code, "standard", say("its low figure is above its high one"))
    if sign * (row.limit - new) < 0:
        figures = {"limit": f"{row.limit:g}", "standard": f"{new:g}"}
        reason = say("{limit} is over the standard {standard}", **figures)
        if row.bad_when == "above":
            reason = say("{limit} is under the standard {standard}", **figures)
        yield Fault("limits", row.code, "limit", reason)
    if row.watch is not None and sign * (row.limit - row.watch) < 0:
        figures = {"watch": f"{row.watch:g}", "limit": f"{row.limit:g}"}
        yield Fault("limits", row.code, "watch", say("{watch} is past the limit {limit}", **figures))


def _band(kind: str, code: str, field: str, band: tuple[object, object, object]) -> Iterator[Fault]:
    low, typical, high = (float(str(value)) for value in band)
    if not low <= typical <= high:
        figures = {"low": f"{low:g}", "typical": f"{typical:g}", "high": f"{high:g}"}
        reason = say("low {low}, typical {typical}, high {high} are not in order", **figures)
        yield Fault(kind, code, field, reason)


def _lead(
    kind: str, code: str, typical: float, slow: float, field: str = "lead_slow_days"
) -> Iterator[Fault]:
    if slow < typical:
        figures = {"slow": f"{slow:g}", "typical": f"{typical:g}"}
        yield Fault(kind, code, field, say("slow {slow} is quicker than typical {typical}", **figures))


def _all_drivers(kind: str, code: str, field: str, given: Iterable[str]) -> Iterator[Fault]:
    missing = [driver for driver in DRIVERS if driver not in given]
    if missing:
        yield Fault(kind, code, field, say("no figure for {names}", names=", ".join(missing)))
