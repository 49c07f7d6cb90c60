"""One figure opened: what it is, its value in words, the rule, the source, and its parts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say, say_count, say_figure
from quotes.calc.bench.said import MONTHS

Adds = Literal["", "sum", "hazard", "product", "price", "least", "most"]
"""How the parts make the figure. `hazard`: e to the minus their sum; `price`: their product, rounded."""
Exact = float | Decimal | None
HAZARD_PLACES = 5
TIMES = "\N{MULTIPLICATION SIGN}"
MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class Origin:
    """A figure and what it is made of.

    `exact` is the figure itself; parts without one explain and do not add. `key` is the address of a figure
    that can be opened by itself.
    """

    title: str
    value: str
    rule: str = ""
    source: str = ""
    parts: tuple[Origin, ...] = ()
    adds: Adds = ""
    exact: Exact = None
    key: str = ""
    private: bool = False
    """What the shop pays and adds: for the owner's eyes."""
    part_number: str = ""
    """The part of the catalogue on whose page the figure stands."""

    @property
    def counted(self) -> tuple[Origin, ...]:
        """The parts that make the figure up."""
        return tuple(part for part in self.parts if part.exact is not None)

    def added_up(self) -> Exact:
        """What the parts come to by the figure's own rule; None where they only explain."""
        figures = [part.exact for part in self.counted if part.exact is not None]
        if not self.adds or not figures:
            return None
        if self.adds in {"least", "most"}:
            return min(figures) if self.adds == "least" else max(figures)
        if self.adds == "sum":
            return sum(figures[1:], figures[0])
        if self.adds == "price":
            return _priced([figure for figure in figures if isinstance(figure, Decimal)], self.exact)
        if self.adds == "product":
            return math.prod(float(figure) for figure in figures)
        return math.exp(-math.fsum(float(figure) for figure in figures))

    def folded(self) -> Origin:
        """The figure with what opens by itself left closed beneath it."""
        closed = (replace(part, parts=()) if part.key else part.folded() for part in self.parts)
        return replace(self, parts=tuple(closed))

    def without_hours(self) -> Origin:
        """The figure without the operations beneath its hours, where they are listed by themselves."""
        parts = (
            replace(part, parts=()) if part.key.startswith("work:") else part.without_hours()
            for part in self.parts
        )
        return replace(self, parts=tuple(parts))

    def without_costs(self) -> Origin:
        """The figure as those read it who may not see what the shop pays."""
        return replace(self, parts=tuple(part.without_costs() for part in self.parts if not part.private))

    def walk(self) -> Iterator[Origin]:
        """The figure and everything below it."""
        yield self
        for part in self.parts:
            yield from part.walk()


def _priced(figures: list[Decimal], exact: Exact) -> Decimal:
    """Their product at the decimals of the price itself."""
    places = -int(exact.as_tuple().exponent) if isinstance(exact, Decimal) else 2
    return round_half_up(math.prod(figures, start=Decimal(1)), places)


def number(figure: float, places: int = 2) -> str:
    """A figure with no more decimals than it needs.

    >>> number(0.25), number(4500.0), number(1.27666, 3)
    ('0.25', '4,500', '1.277')
    """
    written = f"{figure:.{places}f}"
    needed = written.rstrip("0").rstrip(".") if places else written
    return say_figure(float(needed), len(needed.partition(".")[2]))


def hazard(figure: float) -> str:
    """A hazard: no chance, so it bears the figures that let it be added up.

    >>> hazard(0.0123456)
    'hazard 0.01235'
    """
    return say("hazard {figure}", figure=say_figure(figure, HAZARD_PLACES))


def signed_hazard(figure: float) -> str:
    """What is added to a hazard or taken off it.

    >>> signed_hazard(-0.0123456).replace(MINUS, "less ")
    'less hazard 0.01235'
    """
    return f"{MINUS}{hazard(-figure)}" if figure < 0 else hazard(figure)


def money(amount: Decimal, decimals: int = 2) -> str:
    """A sum in the currency named at the head.

    >>> money(Decimal("1234.5"))
    '1,234.50'
    """
    return say_figure(amount, decimals)


def hours(amount: Decimal) -> str:
    """Bench hours with no more decimals than they have.

    >>> hours(Decimal("1.50")), hours(Decimal(12))
    ('1.5 h', '12 h')
    """
    return f"{number(float(amount), 4)} h"


def parts_in_words(count: int) -> str:
    """How many parts.

    >>> parts_in_words(1), parts_in_words(3)
    ('1 part', '3 parts')
    """
    return say_count("{count} part", "{count} parts", count)


def on_day(on: date) -> str:
    """A day with two digits.

    >>> on_day(date(2026, 12, 3))
    '03 Dec 2026'
    """
    return say("{day} {month} {year}", day=f"{on:%d}", month=say(MONTHS[on.month - 1]), year=on.year)
