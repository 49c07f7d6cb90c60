"""The sheet of a strip-down: for one engine type, every quantity in the order in which the parts come off."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from catalogue.calc.engine import EngineCatalogue, EngineType
from catalogue.calc.rows.wear import LimitRow
from catalogue.calc.said import say, to_say
from quotes.calc.bench.said import exact
from quotes.calc.bench.teardown.places import Measured, places_of
from quotes.calc.bench.teardown.quantities import WITHOUT_LIMIT, Quantity
from quotes.calc.bench.teardown.units_read import units_for
from quotes.calc.bench.teardown.verdicts import DEFAULT_SOURCE, Bounds

When = Literal["as_received", "stripped"]
BEFORE_IT_IS_OPENED = "as_received"
NEW_BUILD = "new build"
"""Quantities of the engine put together again: they belong on the assembly record."""
OTHER_SCALE = "leak-down"


GROUPS = {
    "oil_cooling": to_say("Oil cooling"),
    "valve_train": to_say("Valve train"),
    "clutch": to_say("Clutch"),
    "bottom_end": to_say("Bottom end"),
    "top_end": to_say("Top end"),
    "gaskets": to_say("Gaskets"),
    "electrical": to_say("Electrical"),
    "gearbox": to_say("Gearbox"),
}


def group_in_words(code: str) -> str:
    """The name of a group of components; of one that a workshop has of its own, its code."""
    return say(GROUPS[code]) if code in GROUPS else code.replace("_", " ").capitalize()


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One quantity: what it is of, in which places, in which units, and what it is held against.

    `code` is unlike any other on the sheet; `limit` the limit's code in the catalogue, or empty.
    """

    code: str
    component: str
    name: str
    unit: str
    when: When
    places: tuple[str, ...]
    bounds: Bounds | None = None
    limit: str = ""
    basis: str = ""
    instead_of: str = ""
    """The row that this one is another scale of: one of the two is read, never both."""

    @property
    def units(self) -> tuple[str, ...]:
        return units_for(self.unit)


@dataclass(frozen=True, slots=True)
class SheetGroup:
    """Rows that are read together, with one instrument."""

    code: str
    name: str
    rows: tuple[SheetRow, ...]


@dataclass(frozen=True, slots=True)
class ManualFigures:
    """A figure of the maker's manual, in the catalogue's unit of the limit."""

    limit: Decimal
    standard_low: Decimal | None = None
    standard_high: Decimal | None = None
    watch: Decimal | None = None
    source: str = ""


def teardown_sheet(
    catalogue: EngineCatalogue,
    limits: Iterable[LimitRow],
    manual: Mapping[str, ManualFigures],
    *,
    leak_down: str = "",
) -> tuple[SheetGroup, ...]:
    """Groups in strip order. `manual` by code of limit; `leak_down` names the scale, where one was chosen."""
    known = [row for row in limits if row.component in catalogue.components]
    rows = [row for limit in known if (row := _of_limit(limit, catalogue, manual, known)) is not None]
    rows = _one_scale(rows, leak_down)
    rows += [_without(one, catalogue) for one in WITHOUT_LIMIT if one.component in catalogue.components]
    return _grouped([row for row in rows if row.places], catalogue)


def _of_limit(
    row: LimitRow,
    catalogue: EngineCatalogue,
    manual: Mapping[str, ManualFigures],
    others: Sequence[LimitRow],
) -> SheetRow | None:
    unit, _, per = row.unit.partition(" per ")
    if NEW_BUILD in row.quantity or (per and size_of(row, catalogue.engine_type) is None):
        return None
    scale = size_of(row, catalogue.engine_type) if per else None
    bounds = bounds_of(row, manual.get(row.code))
    what = Measured(row.component, catalogue.components[row.component].count, row.quantity)
    return SheetRow(
        code=row.code,
        component=row.component,
        name=row.quantity,
        unit=unit,
        when="as_received" if OTHER_SCALE in row.quantity else "stripped",
        places=places_of(what, catalogue.engine_type),
        bounds=bounds.times(scale) if scale is not None else bounds,
        limit=row.code,
        basis=_basis(row, scale),
        instead_of=row.alternative_to or "",
    )


def _basis(row: LimitRow, size: Decimal | None) -> str:
    if size is None:
        return ""
    return say("{basis} of {size} mm", basis=say(row.basis), size=exact(size.normalize()))


def size_of(row: LimitRow, engine: EngineType) -> Decimal | None:
    """What a share is a share of, in mm: a skirt is as wide as its bore, to less than its limit's last digit.

    None where the engine type does not say, as of a journal: then the figure of the manual is needed.
    """
    by = row.unit.partition(" per ")[2]
    return Decimal(str(engine.bore_mm)) if by.endswith(("bore", "diameter")) else None


def bounds_of(row: LimitRow, manual: ManualFigures | None) -> Bounds:
    """The manual's figures where there are any, else the catalogue's default; in the catalogue's unit."""
    if manual is not None:
        return Bounds(
            limit=manual.limit,
            bad_when=row.bad_when,
            standard_low=manual.standard_low,
            standard_high=manual.standard_high,
            watch=manual.watch,
            source=manual.source,
        )
    return Bounds(
        limit=_exact(row.limit),
        bad_when=row.bad_when,
        standard_low=_exact(row.standard.low),
        standard_high=_exact(row.standard.high),
        watch=None if row.watch is None else _exact(row.watch),
        source=DEFAULT_SOURCE,
    )


def _exact(figure: float) -> Decimal:
    return Decimal(str(figure))


def _one_scale(rows: Sequence[SheetRow], chosen: str) -> list[SheetRow]:
    """Of scales that stand for each other the one chosen, else the one that the others are named against."""
    by_code = {row.code: row for row in rows}
    dropped = set()
    for row in rows:
        if row.instead_of in by_code:
            dropped.add(row.instead_of if chosen == row.code else row.code)
    return [row for row in rows if row.code not in dropped]


def scales(limits: Iterable[LimitRow]) -> tuple[tuple[str, str], ...]:
    """Codes and names of scales that stand for each other, the usual one first."""
    rows = {row.code: row for row in limits}
    pairs = [row for row in rows.values() if row.alternative_to in rows]
    return tuple(
        (code, rows[code].quantity) for row in pairs for code in (row.alternative_to or "", row.code)
    )


def _without(one: Quantity, catalogue: EngineCatalogue) -> SheetRow:
    what = Measured(one.component, 1, one.name)
    return SheetRow(
        code=one.code,
        component=one.component,
        name=one.name,
        unit=one.unit,
        when=one.when,
        places=places_of(what, catalogue.engine_type) if one.in_places else ("",),
    )


def _grouped(rows: Sequence[SheetRow], catalogue: EngineCatalogue) -> tuple[SheetGroup, ...]:
    """What is read before it is opened comes first; then groups by their first part that comes off."""
    order = strip_order(catalogue)
    before = [row for row in rows if row.when == BEFORE_IT_IS_OPENED]
    groups = [SheetGroup(BEFORE_IT_IS_OPENED, say("As received, before it is opened"), tuple(before))]
    by_group: dict[str, list[SheetRow]] = {}
    after = [row for row in rows if row.when != BEFORE_IT_IS_OPENED]
    for row in sorted(after, key=lambda row: order[row.component]):
        by_group.setdefault(catalogue.components[row.component].group, []).append(row)
    groups += [SheetGroup(code, group_in_words(code), tuple(of)) for code, of in by_group.items()]
    return tuple(group for group in groups if group.rows)


def strip_order(catalogue: EngineCatalogue) -> dict[str, int]:
    """The place of every component in the order of coming off; those that no operation names come last.

    What is only looked at, and never taken off by itself, stands where it is looked at.
    """
    steps = work_order(catalogue)
    place: dict[str, int] = {}
    for kind in ("strip", "inspect"):
        taken = dict(place)
        for at, code in enumerate(steps):
            if catalogue.operations[code].kind != kind:
                continue
            for component in catalogue.operations[code].components:
                if component not in taken:
                    place.setdefault(component, at)
    return {component: place.get(component, len(steps)) for component in catalogue.components}


def work_order(catalogue: EngineCatalogue) -> list[str]:
    """Operations as listed, strip-down first, each behind what it requires and comes after."""
    known = catalogue.operations
    order: dict[str, None] = {}

    def visit(code: str, path: frozenset[str]) -> None:
        if code in order or code in path or code not in known:
            return
        for before in (*known[code].requires, *known[code].after):
            visit(before, path | {code})
        order[code] = None

    for code in sorted(known, key=lambda code: known[code].kind != "strip"):
        visit(code, frozenset())
    return list(order)
