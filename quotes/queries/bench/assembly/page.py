"""The assembly record as its pages show it: groups of components, every field, and what is missing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from django.utils import timezone

from catalogue.calc.said import say
from catalogue.calc.typed_figure import as_entered
from quotes.calc.bench.assembly.missing import Missing
from quotes.calc.bench.assembly.requirements import Requirement
from quotes.calc.bench.assembly.sheet import limits_in_words
from quotes.calc.bench.said import short_day
from quotes.calc.bench.teardown.places import across, place_in_words
from quotes.calc.bench.teardown.sheet import group_in_words
from quotes.models import AssemblyEntry, Concession, Measured
from quotes.queries.bench.assembly.record import TAKEN_BACK, JobRecord
from quotes.queries.bench.assembly.sheet import WHOLE_ENGINE
from quotes.queries.people import name_of

OTHER = "engine"
"""The group of what belongs to no component."""


@dataclass(frozen=True, slots=True)
class GroupShown:
    """A group of components: how much of it is missing."""

    code: str
    name: str
    lacks: int
    places: int


@dataclass(frozen=True, slots=True)
class RecordCell:
    """One field: its name on the form, its place, and what stands in it."""

    name: str
    place: str
    entered: str = ""
    past: bool = False
    words: str = ""
    fault: str = ""
    part_number: str = ""
    batch: str = ""
    was: str = ""
    """What the page was made with, so that only what was changed on it is kept."""


@dataclass(frozen=True, slots=True)
class RequirementBlock:
    """One requirement with its fields; `signed` says who wrote them and when."""

    asked: Requirement
    cells: tuple[RecordCell, ...]
    unit: str = ""
    limits: str = ""
    signed: tuple[str, ...] = ()

    @property
    def across(self) -> int:
        return across([cell.place for cell in self.cells])


@dataclass(frozen=True, slots=True)
class PartShown:
    """One component with what is written of it."""

    code: str
    name: str
    blocks: tuple[RequirementBlock, ...] = ()
    lacks: tuple[LackShown, ...] = ()

    @property
    def measures(self) -> bool:
        """Whether anything of it is read from an instrument."""
        return any(block.asked.kind in ("figure", "words") for block in self.blocks)


@dataclass(frozen=True, slots=True)
class LackShown:
    """What one requirement lacks, and at which places."""

    asked: Requirement
    group: str
    words: str
    places: tuple[str, ...]

    @property
    def where(self) -> str:
        """The places by name where they are few, else how many."""
        named = tuple(filter(None, self.places))
        if len(named) <= FEW:
            return "; ".join(map(place_in_words, named))
        if len(named) == len(self.asked.places):
            return say("all {count} places", count=len(named))
        return say("{count} places", count=len(named))


FEW = 2


def group_of(one: Requirement, record: JobRecord) -> str:
    return record.groups.get(one.component, OTHER)


def group_name(code: str) -> str:
    return say(WHOLE_ENGINE) if code == OTHER else group_in_words(code)


def groups_shown(record: JobRecord, lacks: Iterable[Missing]) -> list[GroupShown]:
    """Groups in the order in which the first of their components is fitted."""
    codes = dict.fromkeys(group_of(one, record) for one in record.requirements)
    missing = [group_of(one.requirement, record) for one in lacks]
    places = {
        code: sum(len(one.places) for one in record.requirements if group_of(one, record) == code)
        for code in codes
    }
    return [GroupShown(code, group_name(code), missing.count(code), places[code]) for code in codes]


def lacks_shown(record: JobRecord, lacks: Iterable[Missing]) -> list[PartShown]:
    """What is missing, component by component, the places of one requirement together."""
    found: dict[str, dict[tuple[str, str], LackShown]] = {}
    for one in lacks:
        asked = one.requirement
        of = found.setdefault(asked.component, {})
        held = of.get((asked.code, one.words))
        places = (*(held.places if held else ()), one.place)
        of[asked.code, one.words] = LackShown(asked, group_of(asked, record), one.words, places)
    return [
        PartShown(code, record.names.get(code) or say(WHOLE_ENGINE), lacks=tuple(rows.values()))
        for code, rows in found.items()
    ]


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed and refused, by name of field, with the faults."""

    values: Mapping[str, str] = field(default_factory=dict)
    faults: Mapping[str, str] = field(default_factory=dict)


NOTHING_TYPED = Typed()


def parts_shown(record: JobRecord, group: str, typed: Typed = NOTHING_TYPED) -> list[PartShown]:
    """The components of a group with their fields, in the order of putting together."""
    found: dict[str, list[RequirementBlock]] = {}
    for one in record.requirements:
        if group_of(one, record) == group:
            found.setdefault(one.component, []).append(_block(one, record, typed))
    return [
        PartShown(code, record.names.get(code) or say(WHOLE_ENGINE), tuple(blocks))
        for code, blocks in found.items()
    ]


def field_name(one: Requirement, at: int) -> str:
    """The name of a field: the requirement and the number of its place."""
    return f"e:{one.code}:{at}"


def _block(one: Requirement, record: JobRecord, typed: Typed) -> RequirementBlock:
    rows = [standing(record, one, place) for place in one.places]
    used = [row.entered_unit for row in rows if row is not None and row.entered_unit]
    unit = typed.values.get(f"unit:{one.code}") or (used[-1] if used else next(iter(one.units), ""))
    cells = tuple(_cell(one, at, row, record, unit, typed) for at, row in enumerate(rows))
    limits = limits_in_words(one.within.low, one.within.high, one.unit) if one.within else ""
    signed = dict.fromkeys(signed_words(row) for row in rows if row is not None)
    return RequirementBlock(one, cells, unit, limits, tuple(signed))


def standing(record: JobRecord, one: Requirement, place: str) -> AssemblyEntry | None:
    """The entry that stands and says something; a check that no longer holds is to be made again."""
    row = record.entries.get((one.code, place))
    if row is None or row.entered == TAKEN_BACK:
        return None
    stale = one.kind == "second" and any(lack.requirement.code == one.code for lack in record.lacks())
    return None if stale else row


def mark_of(entered: str, unit: str, number: str, batch: str) -> str:
    """What stands in a field, with all that goes with it."""
    return "|".join((entered, unit, number, batch))


def signed_words(row: AssemblyEntry) -> str:
    """Who wrote it, when, and with what."""
    at = timezone.localtime(row.at)
    told = f"{name_of(row.by)}, {short_day(at)} {at:%H:%M}"
    return f"{told}, {row.instrument.name}" if row.instrument else told


def _cell(
    one: Requirement, at: int, row: AssemblyEntry | None, record: JobRecord, unit: str, typed: Typed
) -> RecordCell:
    """A figure stands in its field only under its own unit; written in another it stands beside it."""
    name, place = field_name(one, at), one.places[at]
    words = _words(one, place, row, record)
    values = typed.values
    if name in values or f"p:{one.code}" in values:
        return RecordCell(
            name,
            place,
            values.get(name, ""),
            fault=typed.faults.get(name, ""),
            part_number=values.get(f"p:{one.code}", ""),
            batch=values.get(f"b:{one.code}", ""),
            was=values.get(f"was:{name}", "") if name in typed.faults else _mark(row),
        )
    if row is None:
        return RecordCell(name, place, words=words, part_number=one.number)
    past = row.within is False
    if row.entered_unit != unit and one.kind == "figure":
        return RecordCell(name, place, "", past, f"{as_entered(row.entered)} {row.entered_unit}: {words}")
    return RecordCell(name, place, row.entered, past, words, "", row.part_number, row.batch, _mark(row))


def _mark(row: AssemblyEntry | None) -> str:
    return "" if row is None else mark_of(row.entered, row.entered_unit, row.part_number, row.batch)


def _words(one: Requirement, place: str, row: AssemblyEntry | None, record: JobRecord) -> str:
    told = []
    if row is None:
        told += [_read_words(record.read[one.code, place])] if (one.code, place) in record.read else []
    else:
        told += {True: [say("within limits")], False: [say("outside its limits")], None: []}[row.within]
        before = row.corrects
        if before and before.entered != row.entered:
            told.append(say("before: {was}", was=as_entered(before.entered)))
    word = record.conceded.get((one.code, place))
    return ", ".join([*told, *([say("let pass: {words}", words=word.words)] if word else [])])


def _read_words(read: Measured) -> str:
    entered = as_entered(read.entered)
    return say("{entered} {unit} at strip-down serves", entered=entered, unit=read.entered_unit)


def concessions(record: JobRecord) -> list[Concession]:
    """The owner's words that stand, the last first."""
    return sorted(record.conceded.values(), key=lambda row: row.at, reverse=True)
