"""The teardown sheet as the page shows it: every field with what stands in it and its verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from catalogue.calc.engine import EngineCatalogue, Finding
from catalogue.calc.said import say
from quotes.calc.bench.teardown.places import across
from quotes.calc.bench.teardown.sheet import SheetGroup, SheetRow, group_in_words
from quotes.calc.bench.teardown.units_read import factor
from quotes.calc.bench.teardown.verdicts import Bounds, far_off, verdict_in_words
from quotes.models import FindingSeen, Instrument, Job, Measured
from quotes.queries.bench.teardown.sheet import JobSheet, key_of, standing_readings


@dataclass(frozen=True, slots=True)
class ReadingCell:
    """One field: its name on the form, its place, and what stands in it."""

    name: str
    place: str
    entered: str = ""
    verdict: str = ""
    words: str = ""
    fault: str = ""
    read: str = ""
    read_in: str = ""
    """What was read, where that was in another unit than the one picked."""


@dataclass(frozen=True, slots=True)
class QuantityBlock:
    """One quantity: its row of the sheet, the unit picked, and its fields."""

    row: SheetRow
    component: str
    unit: str
    cells: tuple[ReadingCell, ...]
    factors: Mapping[str, str] = field(default_factory=dict)

    @property
    def across(self) -> int:
        return across([cell.place for cell in self.cells])


@dataclass(frozen=True, slots=True)
class PageGroup:
    """Quantities that one instrument reads; `own` are readings that the sheet did not ask for."""

    group: SheetGroup
    blocks: tuple[QuantityBlock, ...]


def page_groups(
    job: Job,
    sheet: JobSheet,
    *,
    typed: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
) -> list[PageGroup]:
    """The groups with what was read; `typed` and `faults` by name of field, after a post that was refused."""
    standing = standing_readings(job)
    return [
        PageGroup(group, tuple(_block(row, sheet, standing, typed or {}, faults or {}) for row in group.rows))
        for group in sheet.groups
    ]


def field_name(row: SheetRow, at: int) -> str:
    """The name of a field: the row and the number of its place."""
    return f"r:{row.code}:{at}"


def _block(
    row: SheetRow,
    sheet: JobSheet,
    standing: Mapping[tuple[str, str], Measured],
    typed: Mapping[str, str],
    faults: Mapping[str, str],
) -> QuantityBlock:
    read = [standing.get((key_of(row), place)) for place in row.places]
    used = [kept.entered_unit for kept in read if kept is not None]
    unit = typed.get(f"unit:{row.code}") or (used[-1] if used else row.units[0])
    names = [field_name(row, at) for at in range(len(row.places))]
    cells = tuple(
        _cell(name, place, kept, unit, typed, faults.get(name, ""))
        for name, place, kept in zip(names, row.places, read, strict=True)
    )
    factors = {name: f"{float(factor(name, row.unit)):.15g}" for name in row.units}
    return QuantityBlock(row, sheet.components.get(row.component, row.component), unit, cells, factors)


def _cell(
    name: str,
    place: str,
    kept: Measured | None,
    unit: str,
    typed: Mapping[str, str],
    fault: str,
) -> ReadingCell:
    """A figure stands in its field only under its own unit; read in another it stands beside it."""
    if name in typed:
        same = kept is not None and (typed[name], unit) == (kept.entered, kept.entered_unit)
        verdict = (kept.verdict, read_words(kept)) if kept and same else ("", "")
        return ReadingCell(name, place, typed[name], *verdict, fault=fault)
    if kept is None:
        return ReadingCell(name, place)
    words = read_words(kept)
    if kept.entered_unit != unit:
        return ReadingCell(name, place, "", kept.verdict, words, read=kept.entered, read_in=kept.entered_unit)
    return ReadingCell(name, place, kept.entered, kept.verdict, words)


def read_words(kept: Measured) -> str:
    """What is said of a reading to the one who took it, by the limits that it was held against."""
    return verdict_in_words(kept.value, _held_against(kept))


def doubted(job: Job) -> list[Measured]:
    """Readings that stand and can hardly be right: to be looked at again before the customer reads them."""
    return [row for row in standing_readings(job).values() if far_off(row.value, _held_against(row))]


def _held_against(kept: Measured) -> Bounds | None:
    if kept.limit is None:
        return None
    return Bounds(
        limit=kept.limit,
        bad_when="below" if kept.bad_when == "below" else "above",
        standard_low=kept.standard_low,
        standard_high=kept.standard_high,
        watch=kept.watch,
    )


def own_readings(job: Job, sheet: JobSheet) -> list[Measured]:
    """Readings that stand and are in no field of the sheet."""
    asked = {(key_of(row), place) for group in sheet.groups for row in group.rows for place in row.places}
    return [row for key, row in standing_readings(job).items() if key not in asked]


def findings_seen(job: Job) -> list[FindingSeen]:
    """Every finding, also those taken back, with its photos, the last first."""
    rows = FindingSeen.objects.filter(job=job).select_related("by").prefetch_related("photos")
    return list(rows.order_by("-seen_at", "-pk"))


def findings_offered(catalogue: EngineCatalogue) -> list[tuple[str, list[Finding]]]:
    """Findings of the catalogue by group of their component, as the engine type has them."""
    groups: dict[str, list[Finding]] = {}
    for one in catalogue.findings.values():
        if not one.counts_as(event=False):
            continue
        part = catalogue.components.get(one.component or "") or next(
            (catalogue.components[code] for code in one.any_of if code in catalogue.components), None
        )
        name = group_in_words(part.group) if part else say("Other")
        groups.setdefault(name, []).append(one)
    return sorted(groups.items(), key=lambda item: item[0] == say("Other"))


def instruments_in_use() -> list[Instrument]:
    """Instruments that may be picked."""
    return list(Instrument.objects.filter(out_of_use=False))
