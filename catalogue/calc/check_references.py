"""Checks that every name in a catalogue's rows is a name that the catalogue has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from catalogue.calc.fault import Fault
from catalogue.calc.reference_list import references
from catalogue.calc.resolve_work import ONE_EACH
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.engines import EngineTypeRow
from catalogue.calc.said import say, to_say
from catalogue.calc.sources import cited

SETTLED_VALUES: Mapping[str, frozenset[str]] = {
    "block": frozenset({"separate", "integral"}),
    "case_split": frozenset({"vertical", "horizontal"}),
    "gearbox_access": frozenset({"in_cases", "cassette"}),
    "rod_type": frozenset({"split_plain", "one_piece_roller"}),
    "delivered": frozenset({"loose", "in_chassis", "in_chassis_multi"}),
}
"""What a condition of an operation may ask for."""
IN_WORDS = {
    "components": to_say("component"),
    "operations": to_say("operation"),
    "machine_work": to_say("machine work"),
    "engine_types": to_say("engine type"),
    "suppliers": to_say("supplier"),
    "findings": to_say("finding"),
    "limits": to_say("limit"),
}


@dataclass(frozen=True, slots=True)
class Known:
    """The codes of every kind there are."""

    codes: Mapping[str, frozenset[str]]

    def missing(self, kind: str, wanted: Iterable[str]) -> list[str]:
        return [code for code in dict.fromkeys(wanted) if code not in self.codes[kind]]


def reference_faults(rows: CatalogueRows) -> tuple[Fault, ...]:
    """One fault per name that nothing in the catalogue answers to."""
    known = Known({kind: frozenset(row.code for row in getattr(rows, kind)) for kind in IN_WORDS})
    faults = [
        Fault(
            found.kind,
            found.entry,
            found.field,
            say("no {kind} {code}", kind=say(IN_WORDS[found.target]), code=repr(code)),
        )
        for found in references(rows)
        for code in known.missing(found.target, found.codes)
    ]
    return (*faults, *_pieces(rows), *_conditions(rows), *_unknown_sources(rows))


def _pieces(rows: CatalogueRows) -> Iterator[Fault]:
    """Pieces that hours or machine work count, and that an engine type which has the work does not."""
    for operation in rows.operations:
        piece = operation.per_piece
        for engine_type in rows.engine_types:
            if piece and engine_type.code in operation.hours and piece.piece not in engine_type.pieces:
                yield Fault("operations", operation.code, "per_piece", _how_many(engine_type, piece.piece))
    counted: list[tuple[str, str, str, str]] = [
        ("machine_work", work.code, "unit", work.unit) for work in rows.machine_work
    ]
    counted += [
        ("components", row.code, "reach.machine_work_piece", row.reach.machine_work_piece)
        for row in rows.components
        if row.reach.machine_work_piece
    ]
    for kind, code, field, counted_piece in counted:
        for engine_type in rows.engine_types:
            if counted_piece not in ONE_EACH and counted_piece not in engine_type.pieces:
                yield Fault(kind, code, field, _how_many(engine_type, counted_piece))


def _how_many(engine_type: EngineTypeRow, piece: str) -> str:
    return say("{type} does not say how many {piece} it has", type=engine_type.code, piece=repr(piece))


def _conditions(rows: CatalogueRows) -> Iterator[Fault]:
    for operation in rows.operations:
        for condition in operation.requires_if:
            allowed = SETTLED_VALUES[condition.attribute]
            if condition.equals not in allowed:
                reason = say(
                    "{attribute} is one of {names}, not {given}",
                    attribute=condition.attribute,
                    names=", ".join(sorted(allowed)),
                    given=repr(condition.equals),
                )
                yield Fault("operations", operation.code, "requires_if", reason)


def _unknown_sources(rows: CatalogueRows) -> Iterator[Fault]:
    register = {row.code for row in rows.sources}
    for kind in (*IN_WORDS, "tiers", "load_laws", "duties", "events", "facts", "parts"):
        for row in getattr(rows, kind):
            texts = [row.source] if hasattr(row, "source") else [row.life_source, *row.sources.values()]
            for code in cited("; ".join(texts)):
                if code not in register:
                    entry = getattr(row, "code", "") or row.number
                    yield Fault(
                        kind, entry, "source", say("no source {code} in the register", code=repr(code))
                    )
