"""One option line by line: sections with their sums, the taxes by group, and the final sum."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.sheet.chance_values import LadderStep
from quotes.calc.sheet.from_leaving import over_leaving
from quotes.calc.sheet.line_values import Kind, Line
from quotes.calc.sheet.name_words import said_unit
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.words import (
    figure,
    first_large,
    inside,
    listed_up_to,
    percent,
    percent_band,
    plain_name,
    whole_percent,
)

SECTIONS: tuple[tuple[Kind, str], ...] = (
    ("labour", to_say("Strip and rebuild")),
    ("part", to_say("Parts")),
    ("machine_work", to_say("Machine work")),
    ("consumables", to_say("Consumables")),
    ("discount", to_say("Discount")),
)


_NAMED = 8
"""How many parts of a step are named before the rest is counted; the reasons name them all."""


@dataclass(frozen=True, slots=True)
class Item:
    """A priced line in words."""

    state: str
    description: str
    quantity: str
    unit: str
    each: str
    net: str
    reason: str
    edited: str


@dataclass(frozen=True, slots=True)
class Section:
    """Lines of one kind and what they come to."""

    title: str
    items: tuple[Item, ...]
    net: str


@dataclass(frozen=True, slots=True)
class SumLine:
    """One line of the sum; `final` is ruled twice."""

    words: str
    amount: str
    final: bool = False


@dataclass(frozen=True, slots=True)
class StepInWords:
    """One step of the ladder in words."""

    number: int
    adds: str
    more: str
    gross: str
    chance: str
    is_option: bool
    likely: str = ""
    """The band; a sheet from before there was one has none."""
    buys: str = ""


def sections(option: Option, comparison: Comparison, language: str = "") -> tuple[Section, ...]:
    """The option's lines by kind, in the order of the work; kinds without a line are left out."""
    found = []
    for kind, title in SECTIONS:
        lines = [line for line in option.lines if line.kind == kind]
        if lines:
            net = sum((line.net for line in lines), ZERO)
            items = tuple(item(line, comparison, language) for line in lines)
            found.append(Section(say(title), items, figure(net, comparison.decimals, language)))
    return tuple(found)


def if_needed(option: Option, comparison: Comparison, language: str = "") -> tuple[Item, ...]:
    """Priced and not included."""
    return tuple(item(line, comparison, language) for line in option.if_needed)


def item(line: Line, comparison: Comparison, language: str = "") -> Item:
    return Item(
        state=line.state,
        description=first_large(plain_name(line.description)),
        quantity=quantity(line.quantity, language),
        unit=said_unit(line.unit),
        each=figure(line.unit_price, comparison.decimals, language),
        net=figure(line.net, comparison.decimals, language),
        reason=line.reason,
        edited=line.edited,
    )


def quantity(amount: Decimal, language: str = "") -> str:
    """A quantity with the decimals it has, at most three.

    >>> quantity(Decimal("16.00")), quantity(Decimal("4.60"))
    ('16', '4.6')
    """
    places = max(-int(amount.normalize().as_tuple().exponent), 0)
    return figure(amount, min(places, 3), language)


def sums(option: Option, comparison: Comparison, language: str = "") -> tuple[SumLine, ...]:
    """Net, the tax of each group and component, gross; all as stored."""

    def words(amount: Decimal) -> str:
        return figure(amount, comparison.decimals, language)

    told = [SumLine(say("Sum before tax"), words(option.net.typical))]
    for group in option.tax_groups:
        on = words(group.taxable)
        if not group.components:
            told.append(SumLine(_no_tax(on, group.reason), words(group.tax)))
        for name, rate, tax in group.components:
            of_it = say("{tax} {rate} on {sum}", tax=first_large(name), rate=percent(rate, language), sum=on)
            told.append(SumLine(of_it, words(tax)))
    whole = say("{option}, with tax", option=option.name)
    told.append(SumLine(whole, words(option.gross.typical), final=True))
    return tuple(told)


def _no_tax(on: str, reason: str) -> str:
    if not reason:
        return say("No tax on {sum}", sum=on)
    return say("No tax on {sum}: {reason}", sum=on, reason=inside(reason).rstrip("."))


def ladder(option: Option, comparison: Comparison, language: str = "") -> tuple[StepInWords, ...]:
    """The steps from cheapest to safest, from leaving it on where that is a step below the first."""
    over = over_leaving(option, comparison)
    foot = () if over is None else (_leaving(comparison, language),)
    return (*foot, *(_step(step, comparison, language, over) for step in option.ladder))


def _leaving(comparison: Comparison, language: str) -> StepInWords:
    left = comparison.leave_it
    return StepInWords(
        number=0,
        adds=say("Left as it is, with oil and filter"),
        more="",
        gross=figure(left.gross, comparison.decimals, language),
        chance=whole_percent(left.chance.value),
        is_option=False,
        likely=percent_band(left.chance.low, left.chance.high),
    )


def _step(step: LadderStep, comparison: Comparison, language: str, over: Decimal | None) -> StepInWords:
    more = step.more if step.number > 1 else over
    adds = listed_up_to(_NAMED, [inside(plain_name(name)) for name in step.names], say("more"))
    return StepInWords(
        number=step.number,
        adds=first_large(adds),
        more="" if more is None else _signed(more, comparison, language),
        gross=figure(step.gross, comparison.decimals, language),
        chance=whole_percent(step.chance),
        is_option=step.is_option,
        likely="" if step.low is None or step.high is None else percent_band(step.low, step.high),
        buys=step.bought,
    )


def _signed(amount: Decimal, comparison: Comparison, language: str) -> str:
    sign = "+" if amount > 0 else ""
    return sign + figure(amount, comparison.decimals, language)
