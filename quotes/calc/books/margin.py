"""Job margin: what was quoted against what it took, by build, tier and engine type. Sums are before tax."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.request import Value


class QuotedAgainst(Value):
    """What was quoted, and what it came to."""

    quoted: Decimal = ZERO
    actual: Decimal = ZERO

    @property
    def over(self) -> Decimal:
        """How much more it took than was quoted; below nought where it took less."""
        return self.actual - self.quoted

    def __add__(self, other: QuotedAgainst) -> QuotedAgainst:
        return QuotedAgainst(quoted=self.quoted + other.quoted, actual=self.actual + other.actual)


class Margin(Value):
    """One build, or several together. Parts and machine work are at what they cost the shop."""

    name: str
    builds: int = 1
    hours: QuotedAgainst = QuotedAgainst()
    parts: QuotedAgainst = QuotedAgainst()
    machine_work: QuotedAgainst = QuotedAgainst()
    other_cost: Decimal = ZERO
    """Freight and the like."""
    labour_cost: Decimal = ZERO
    """Hours worked at what an hour costs the shop."""
    invoiced: Decimal = ZERO
    """Net of what was invoiced, less what was credited; interest left out."""

    @property
    def cost(self) -> Decimal:
        return self.parts.actual + self.machine_work.actual + self.other_cost + self.labour_cost

    @property
    def margin(self) -> Decimal:
        return self.invoiced - self.cost

    @property
    def margin_pct(self) -> Decimal | None:
        """Share of what was invoiced, in per cent to one decimal; None where nothing was."""
        return round_half_up(self.margin * 100 / self.invoiced, 1) if self.invoiced > ZERO else None


class BuildMargin(Margin):
    """One build. `name` is the number of its quote."""

    build_id: int
    customer: str
    tier: str
    engine_type: str


def together(name: str, margins: Iterable[Margin]) -> Margin:
    """Several as one."""
    each = list(margins)
    nothing = QuotedAgainst()
    return Margin(
        name=name,
        builds=sum(one.builds for one in each),
        hours=sum((one.hours for one in each), nothing),
        parts=sum((one.parts for one in each), nothing),
        machine_work=sum((one.machine_work for one in each), nothing),
        other_cost=sum((one.other_cost for one in each), ZERO),
        labour_cost=sum((one.labour_cost for one in each), ZERO),
        invoiced=sum((one.invoiced for one in each), ZERO),
    )


def grouped(margins: Iterable[BuildMargin], by: Callable[[BuildMargin], str]) -> tuple[Margin, ...]:
    """One for each group, by name."""
    groups: dict[str, list[BuildMargin]] = {}
    for one in margins:
        groups.setdefault(by(one), []).append(one)
    return tuple(together(name, groups[name]) for name in sorted(groups))


class Margins(Value):
    """The whole list, for the owner."""

    builds: tuple[BuildMargin, ...]
    tiers: tuple[Margin, ...]
    engine_types: tuple[Margin, ...]
    total: Margin


def margins_of(builds: Iterable[BuildMargin]) -> Margins:
    """By build, by tier and by engine type, and all together."""
    each = tuple(builds)
    return Margins(
        builds=each,
        tiers=grouped(each, lambda one: one.tier),
        engine_types=grouped(each, lambda one: one.engine_type),
        total=together("all", each),
    )
