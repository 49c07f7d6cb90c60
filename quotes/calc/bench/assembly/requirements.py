"""The assembly record: everything that must be written down of a build before its engine may run.

It is worked out from the work that was accepted, so that what the scope renews is neither forgotten on the
order nor on the bench.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.engine import Component, EngineCatalogue
from catalogue.calc.rows.wear import LimitRow
from catalogue.calc.said import say, to_say
from quotes.calc.bench.assembly.asks import AnswerKind, Ask, asks_of, belongs
from quotes.calc.bench.assembly.order import assembly_order
from quotes.calc.bench.assembly.work import BuildWork
from quotes.calc.bench.teardown.places import WHOLE, Measured, places_at, places_of
from quotes.calc.bench.teardown.sheet import ManualFigures, bounds_of, size_of
from quotes.calc.bench.teardown.units_read import units_for
from quotes.calc.bench.teardown.verdicts import Bounds


@dataclass(frozen=True, slots=True)
class Within:
    """What a figure must lie between, both included, in its kept unit, and whose figures they are."""

    low: Decimal | None
    high: Decimal | None
    source: str

    def holds(self, value: Decimal) -> bool:
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)


@dataclass(frozen=True, slots=True)
class Requirement:
    """One thing to write down, at each of its places. `code` is unlike any other of the record.

    `numbered` asks for a part number or a batch. `checks` are the requirements that a second person looks at.
    `reading` is the row of the teardown sheet that serves as well, for a part that was measured and stays.
    """

    code: str
    component: str
    operation: str
    name: str
    kind: AnswerKind
    places: tuple[str, ...] = WHOLE
    unit: str = ""
    within: Within | None = None
    numbered: bool = False
    number: str = ""
    note: str = ""
    checks: tuple[str, ...] = ()
    reading: str = ""

    @property
    def units(self) -> tuple[str, ...]:
        return units_for(self.unit) if self.unit else ()


@dataclass(frozen=True, slots=True)
class KnownLimits:
    """The limits of the catalogue and of the maker's manual; `leak_down` is the code of the scale in use."""

    limits: Mapping[str, LimitRow]
    manual: Mapping[str, ManualFigures]
    leak_down: str = ""


LEAK_DOWN = "leakdown_final"


SECOND: Sequence[tuple[str, str, str, tuple[str, ...], tuple[str, ...]]] = (
    (
        "rod_bolts",
        "rod_bolt",
        to_say("rod bolts looked at by a second person"),
        ("rods_on",),
        ("bolt_stretch", "new_rod_bolt"),
    ),
    (
        "cam_timing",
        "cam_exhaust",
        to_say("cam timing looked at by a second person"),
        ("cams_in", "cam_degree"),
        ("timing_marks", "centre_intake", "centre_exhaust"),
    ),
    (
        "pin_circlips",
        "circlip",
        to_say("pin circlips looked at by a second person"),
        ("pistons_in", "piston_rods_in"),
        ("new_circlip",),
    ),
    (
        "gear_circlips",
        "gearbox_circlip",
        to_say("gear circlips looked at by a second person"),
        ("gearbox_rebuild",),
        ("new_gearbox_circlip",),
    ),
)
"""What a second person looks at: code, component, name, the work that brings it, and what it covers."""


def requirements_of(
    work: BuildWork, catalogue: EngineCatalogue, figures: KnownLimits
) -> tuple[Requirement, ...]:
    """Everything that the work asks for, in the order of putting together."""
    found: dict[str, Requirement] = {}
    for code in work.renewed:
        one = _renewed(catalogue.components[code], work, catalogue)
        found[one.code] = one
    for code in work.reworked:
        found[f"rework_{code}"] = Requirement(
            f"rework_{code}", code, "", say("what was done to it, by whom, to what size"), "words"
        )
    for one in _recorded(work, catalogue, figures):
        found.setdefault(one.code, one)
    for one in _second(work, catalogue, found):
        found[one.code] = one
    return _in_order(found.values(), assembly_order(catalogue, work.operations))


def _renewed(part: Component, work: BuildWork, catalogue: EngineCatalogue) -> Requirement:
    """A new article: a part that is used up by one fitting is ticked, any other has its number or batch."""
    giver = work.comes_with.get(part.code)
    single = part.single_use == "yes"
    return Requirement(
        code=f"new_{part.code}",
        component=part.code,
        operation="",
        name=say("new, single-use") if single else say("new"),
        kind="new",
        numbered=not (single or giver),
        number=work.numbers.get(part.code, ""),
        note=say("comes with the {name}", name=catalogue.components[giver].name) if giver else "",
    )


def _recorded(work: BuildWork, catalogue: EngineCatalogue, figures: KnownLimits) -> Iterable[Requirement]:
    for code in work.operations:
        operation = catalogue.operations[code]
        if not belongs(operation):
            continue
        for _, asks in asks_of(operation):
            for ask in asks:
                one = _asked(ask, code, work, catalogue, figures)
                if one is not None and one.places:
                    yield one


def _asked(
    ask: Ask, operation: str, work: BuildWork, catalogue: EngineCatalogue, figures: KnownLimits
) -> Requirement | None:
    if ask.component and ask.component not in catalogue.components:
        return None
    if ask.wear and ask.component in work.renewed:
        return None
    if ask.plain and catalogue.engine_type.rod_type != "split_plain":
        return None
    limit = _limit(ask, figures)
    stays = ask.component not in {*work.renewed, *work.reworked}
    return Requirement(
        code=ask.code,
        component=ask.component,
        operation=operation,
        name=say(limit.quantity if limit and ask.code == LEAK_DOWN else ask.name),
        kind=ask.kind,
        places=_places(ask, catalogue),
        unit=ask.unit if ask.kind == "figure" else "",
        within=_within(limit, catalogue, figures) if limit else None,
        reading=limit.code if limit and ask.wear and stays else "",
    )


def _limit(ask: Ask, figures: KnownLimits) -> LimitRow | None:
    code = figures.leak_down or ask.limit if ask.code == LEAK_DOWN else ask.limit
    return figures.limits.get(code)


def _places(ask: Ask, catalogue: EngineCatalogue) -> tuple[str, ...]:
    if ask.places or ask.at:
        return ask.places or places_at(ask.at or "whole", catalogue.engine_type)
    count = catalogue.components[ask.component].count if ask.component else 1
    return places_of(Measured(ask.component, count, ask.name), catalogue.engine_type)


def _within(row: LimitRow, catalogue: EngineCatalogue, figures: KnownLimits) -> Within | None:
    """The figures that hold as it is built; None where they are shares of what the engine type does not say.

    What wear opens must not be tighter than the standard begins either: a clearance below it seizes. Common
    practice, no source.
    """
    share = " per " in row.unit
    size = size_of(row, catalogue.engine_type) if share else None
    if share and size is None:
        return None
    bounds: Bounds = bounds_of(row, figures.manual.get(row.code))
    bounds = bounds.times(size) if size is not None else bounds
    if bounds.bad_when == "below":
        return Within(bounds.limit, None, bounds.source)
    return Within(bounds.standard_low or None, bounds.limit, bounds.source)


def _second(
    work: BuildWork, catalogue: EngineCatalogue, found: Mapping[str, Requirement]
) -> Iterable[Requirement]:
    for code, component, name, operations, covers in SECOND:
        if component in catalogue.components and set(operations) & set(work.operations):
            yield Requirement(
                code=f"second_{code}",
                component=component,
                operation=next(one for one in operations if one in work.operations),
                name=say(name),
                kind="second",
                checks=tuple(one for one in covers if one in found),
            )


def _in_order(found: Iterable[Requirement], components: Sequence[str]) -> tuple[Requirement, ...]:
    """Component by component as they are fitted: new articles first, the second person's check last."""
    order = {code: number for number, code in enumerate(components)}
    edges: Mapping[AnswerKind, int] = {"new": 0, "second": 2}
    return tuple(
        sorted(found, key=lambda one: (order.get(one.component, len(order)), edges.get(one.kind, 1)))
    )
