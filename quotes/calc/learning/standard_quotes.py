"""Three quotes that never change, to see what a changed life would do to them: before and after."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say
from quotes.calc.ask.request import EngineAsked, Planned, Request, Segment, Unit
from quotes.calc.compare import compare
from quotes.calc.sheet.base_values import Service
from quotes.calc.sheet.chance_values import Chance
from quotes.calc.sheet.values import Comparison, LeaveIt, Option
from quotes.calc.sheet.words import estimate_in_words, percent_band
from quotes.calc.shop import Shop

Catalogued = Callable[[str], EngineCatalogue | None]
"""The catalogue of an engine type; None where there is none."""
Compare = Callable[[Request, EngineCatalogue, Shop], Comparison]


@dataclass(frozen=True, slots=True)
class Standard:
    """One of the three: what came in, and what is planned."""

    engine_type: str
    ran: tuple[str, Unit, str]
    planned: tuple[str, Unit, str]

    def request(self, on: date) -> Request:
        amount, unit, duty = self.ran
        ahead, ahead_unit, ahead_duty = self.planned
        return Request(
            on=on,
            engine=EngineAsked(
                type=self.engine_type, history=(Segment(amount=Decimal(amount), unit=unit, duty=duty),)
            ),
            planned=Planned(duty=ahead_duty, amount=Decimal(ahead), unit=ahead_unit),
        )


STANDARD: tuple[Standard, ...] = (
    Standard("four600", ("4000", "mi", "sprint"), ("1800", "mi", "sprint")),
    Standard("four600", ("4000", "mi", "sprint"), ("2000", "mi", "endurance")),
    Standard("single450", ("38", "h", "motocross"), ("25", "h", "motocross")),
)


@dataclass(frozen=True, slots=True)
class WayFigures:
    """What one way of building comes to: its chance, its price with tax, and how long it is good for."""

    chance: float
    gross: Decimal
    good_for: str
    likely: str = ""
    """The band of the chance."""


@dataclass(frozen=True, slots=True)
class WayMoved:
    """One way of building, before and after; None where it is not offered."""

    name: str
    before: WayFigures | None
    after: WayFigures | None

    @property
    def chance_moves(self) -> bool:
        """Whether the chance differs in whole per cent, which is as fine as one is ever said."""
        both = [None if one is None else round(one.chance * 100) for one in (self.before, self.after)]
        return both[0] != both[1]

    @property
    def moves(self) -> bool:
        """Whether anything differs that is shown."""
        if self.before is None or self.after is None:
            return self.before is not self.after
        shown = [(one.gross, one.good_for) for one in (self.before, self.after)]
        return self.chance_moves or shown[0] != shown[1]


@dataclass(frozen=True, slots=True)
class Effect:
    """One standard quote, with leaving it and every option."""

    title: str
    currency: str
    ways: tuple[WayMoved, ...]

    @property
    def moves(self) -> bool:
        return any(way.moves for way in self.ways)


def effects(
    before: Catalogued, after: Catalogued, shop: Shop, on: date, work_out: Compare = compare
) -> tuple[Effect, ...]:
    """Each standard quote of an engine type that the catalogue has, worked out on both.

    Where the type lacks the component that changed, `after` gives what `before` gave: worked out once.
    """
    found = []
    for standard in STANDARD:
        old, new = before(standard.engine_type), after(standard.engine_type)
        if old is None or new is None:
            continue
        request = standard.request(on)
        was = work_out(request, old, shop)
        found.append(_effect(was, was if new is old else work_out(request, new, shop)))
    return tuple(found)


def _effect(was: Comparison, becomes: Comparison) -> Effect:
    options = {one.tier: one for one in becomes.options}
    ways = [WayMoved(was.leave_it.name, _left(was.leave_it), _left(becomes.leave_it))]
    for one in was.options:
        then = options.get(one.tier)
        ways.append(WayMoved(one.name, _built(one), _built(then) if then else None))
    ran = " ".join(was.history_in_words).rstrip(".")
    title = say(
        "{type}: {ran}; then {planned}", type=was.engine_type_name, ran=ran, planned=was.planned_in_words
    )
    return Effect(title, was.currency, tuple(ways))


def _likely(chance: Chance) -> str:
    return say("likely {band}", band=percent_band(chance.low, chance.high))


def _left(one: LeaveIt) -> WayFigures:
    return WayFigures(one.chance.value, one.gross, _good_for(one.good_for), _likely(one.chance))


def _built(one: Option) -> WayFigures:
    return WayFigures(one.chance.value, one.gross.typical, _good_for(one.good_for), _likely(one.chance))


def _good_for(service: Service) -> str:
    return estimate_in_words(float(service.amount), service.unit)
