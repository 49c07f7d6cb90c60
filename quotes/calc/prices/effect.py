"""Whose margin moves when parts cost something else, and by how much. What was issued keeps its prices."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from catalogue.calc.engine import EngineCatalogue, Grade, Part
from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.bench.parts.needs import Need
from quotes.calc.bench.parts.picking import part_named
from quotes.calc.sheet.values import Comparison, Option

Json = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class PartMove:
    """What one part of the catalogue costs before and after, and the list price that caps it."""

    number: str
    engine_type: str
    component: str
    grade: Grade
    cost_was: Decimal
    cost: Decimal
    list_price: Decimal

    @property
    def more(self) -> Decimal:
        return self.cost - self.cost_was


Moves = Mapping[str, PartMove]
"""By part number."""


class Moving:
    """What is one sum before and another after."""

    __slots__ = ()
    before: Decimal
    after: Decimal

    @property
    def by(self) -> Decimal:
        return self.after - self.before


@dataclass(frozen=True, slots=True)
class MarginMoves(Moving):
    """The margin on what is bought for one option or one build, at the costs before and after."""

    pk: int
    title: str
    customer: str
    what: str
    """The option, or how many articles are still to be ordered."""
    before: Decimal
    after: Decimal


@dataclass(frozen=True, slots=True)
class SumMoves(Moving):
    """What an option of a draft comes to with tax, before and after."""

    option: str
    before: Decimal
    after: Decimal


@dataclass(frozen=True, slots=True)
class DraftMoves:
    """A draft, whose sums follow the catalogue until it is issued."""

    pk: int
    title: str
    customer: str
    sums: tuple[SumMoves, ...]


@dataclass(frozen=True, slots=True)
class Effect:
    """All that a list moves besides the catalogue itself."""

    quotes: tuple[MarginMoves, ...] = ()
    builds: tuple[MarginMoves, ...] = ()
    drafts: tuple[DraftMoves, ...] = ()
    drafts_left: int = 0
    """So many more drafts of these engine types were not worked out."""

    @property
    def moves_something(self) -> bool:
        return bool(self.quotes or self.builds or self.drafts or self.drafts_left)


def option_margin(option: Json, catalogue: EngineCatalogue, moves: Moves) -> tuple[Decimal, Decimal] | None:
    """Margin before and after of an option as it was issued, in the sheet's JSON; None where nothing moves.

    Each part is bought at what it costs now, not at what it cost when the option was issued.
    """
    margin = more = ZERO
    for line in option["lines"]:
        if line["cost"] is None:
            continue
        quantity, cost = Decimal(str(line["quantity"])), Decimal(str(line["cost"]))
        if part := _part_of(line, option["tune"], catalogue):
            cost = quantity * part.cost
            more += quantity * moves[part.number].more if part.number in moves else ZERO
        margin += Decimal(str(line["net"])) - cost
    return (round_half_up(margin), round_half_up(margin - more)) if more else None


def _part_of(line: Json, tune: str, catalogue: EngineCatalogue) -> Part | None:
    if line["kind"] != "part":
        return None
    return part_named(line["component"] or line["code"], tune, catalogue, line["description"])


def build_margin(option: Option, needs: Iterable[Need], moves: Moves) -> tuple[Decimal, Decimal, int] | None:
    """Margin before and after of a build, by what is still to be ordered, and how many articles that is.

    What is ordered already was bought at its price; the rest at what it costs now. None where nothing moves.
    """
    margin = sum((line.net - line.cost for line in option.lines if line.cost is not None), ZERO)
    more, articles = ZERO, 0
    for need in needs:
        if need.to_order and need.offer and need.pick.part:
            quoted = need.pick.quoted_cost
            margin -= need.to_order * (need.offer.cost - quoted) if quoted is not None else ZERO
            move = moves.get(need.pick.part.number)
            if move is not None and move.more:
                more += need.to_order * move.more
                articles += 1
    return (round_half_up(margin), round_half_up(margin - more), articles) if more else None


def with_moves(catalogue: EngineCatalogue, moves: Moves) -> EngineCatalogue:
    """The catalogue of an engine type as it would be."""
    parts = {place: _moved(part, moves.get(part.number)) for place, part in catalogue.parts.items()}
    return replace(catalogue, parts=parts)


def _moved(part: Part, move: PartMove | None) -> Part:
    return part if move is None else replace(part, cost=move.cost, list_price=move.list_price)


def sums_moved(before: Comparison, after: Comparison) -> tuple[SumMoves, ...]:
    """Options whose sum with tax differs."""
    then = {option.tier: option for option in after.options}
    pairs = [(option, then[option.tier]) for option in before.options if option.tier in then]
    return tuple(
        SumMoves(was.name, was.gross.typical, now.gross.typical)
        for was, now in pairs
        if was.gross.typical != now.gross.typical
    )


def largest_first(rows: Iterable[MarginMoves]) -> Sequence[MarginMoves]:
    return sorted(rows, key=lambda row: (-abs(row.by), row.pk))
