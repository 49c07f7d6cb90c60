"""Which components, operations, machine work and parts one engine type has."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.engines import EngineTypeRow
from catalogue.calc.said import say
from catalogue.calc.sources import in_words, note_in_words


class UnknownEngineTypeError(LookupError):
    """No engine type of the catalogue has this code."""


@dataclass(frozen=True, slots=True)
class SettledRows:
    """The rows, the engine type in hand, and the codes of all that it has."""

    rows: CatalogueRows
    engine_type: EngineTypeRow
    components: frozenset[str]
    operations: frozenset[str]
    machine_work: frozenset[str]
    priced: frozenset[tuple[str, str]]
    """Component and grade of every part on this type's price list."""
    titles: Mapping[str, str]

    @property
    def pressed_up_crank(self) -> bool:
        return self.engine_type.rod_type == "one_piece_roller"

    def only_components(self, codes: Iterable[str]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(code for code in codes if code in self.components))

    def only_operations(self, codes: Iterable[str]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(code for code in codes if code in self.operations))

    def only_machine_work(self, codes: Iterable[str]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(code for code in codes if code in self.machine_work))

    def source(self, text: str) -> str:
        return in_words(text, self.titles)

    def note(self, text: str) -> str:
        return note_in_words(text, self.titles)


def settle(rows: CatalogueRows, code: str) -> SettledRows:
    """What the engine type `code` has. Machine work that needs an operation it lacks can't be done to it.

    Raises UnknownEngineTypeError, which names the codes there are.
    """
    engine_type = next((row for row in rows.engine_types if row.code == code), None)
    if engine_type is None:
        known = ", ".join(row.code for row in rows.engine_types) or say("none yet")
        raise UnknownEngineTypeError(
            say("no engine type {code} in the catalogue; it has: {names}", code=repr(code), names=known)
        )
    fitted = frozenset(row.code for row in rows.components if row.count.get(code, 0))
    done = frozenset(row.code for row in rows.operations if code in row.hours)
    return SettledRows(
        rows=rows,
        engine_type=engine_type,
        components=fitted,
        operations=done,
        machine_work=frozenset(
            row.code for row in rows.machine_work if done.issuperset(row.needs_operations)
        ),
        priced=frozenset((row.component, row.grade) for row in rows.parts if row.engine_type == code),
        titles={row.code: row.title for row in rows.sources},
    )
