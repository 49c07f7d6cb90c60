"""What differs between two sheets of one quote, in words that a customer can read."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.sheet.issued_values import RevisionChange, Sheet
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.sheet.values import Comparison, Option
from quotes.calc.sheet.words import chance_with_band

CHECKS = {
    "each_meeting": to_say("at each meeting"),
    "each_season": to_say("once a season"),
    "never": to_say("not in between"),
}


def sheet_changes(before: Sheet, after: Sheet) -> tuple[RevisionChange, ...]:
    """The differences that matter to the customer, from the whole to the single line; dates stay out.

    Texts of two languages can't be held against each other: then only the figures are.
    """
    if before.heading.language != after.heading.language:
        return tuple(_options(before, after))
    return (*_heading(before, after), *_asked(before, after), *_options(before, after))


def _heading(before: Sheet, after: Sheet) -> Iterator[RevisionChange]:
    old, new = before.heading, after.heading
    yield from _differ(say("Customer"), old.customer.name, new.customer.name)
    yield from _differ(say("Engine"), old.engine_name, new.engine_name)
    yield from _differ(say("Engine number"), old.engine_number, new.engine_number)
    yield from _differ(say("Class"), old.class_name, new.class_name)
    yield from _differ(say("Terms"), *(" ".join(sheet.terms) for sheet in (before, after)), quoted=False)


def _asked(before: Sheet, after: Sheet) -> Iterator[RevisionChange]:
    old, new = before.comparison, after.comparison
    yield from _differ(say("Service so far"), " ".join(old.history_in_words), " ".join(new.history_in_words))
    yield from _differ(say("Planned service"), old.planned_in_words, new.planned_in_words)
    yield from _differ(say("Aim"), old.target_in_words, new.target_in_words)
    yield from _differ(say("Checked"), _checked(old), _checked(new))
    yield from _differ(say("Price"), _firmness(old), _firmness(new))


def _firmness(comparison: Comparison) -> str:
    return say("firm") if comparison.firm else say("a band, until the strip-down")


def _checked(comparison: Comparison) -> str:
    return say(CHECKS.get(comparison.checks, comparison.checks))


def _options(before: Sheet, after: Sheet) -> Iterator[RevisionChange]:
    old = {option.tier: option for option in before.comparison.options}
    new = {option.tier: option for option in after.comparison.options}
    for tier in [*new, *(tier for tier in old if tier not in new)]:
        if tier not in old:
            yield RevisionChange(
                what=f"{new[tier].name}", before=say("not offered"), after=_money(new[tier].gross.typical)
            )
        elif tier not in new:
            yield RevisionChange(
                what=f"{old[tier].name}", before=_money(old[tier].gross.typical), after=say("not offered")
            )
        else:
            yield from _option(old[tier], new[tier])


def _option(old: Option, new: Option) -> Iterator[RevisionChange]:
    name = new.name
    yield from _differ(
        say("{option}, with tax", option=name), _money(old.gross.typical), _money(new.gross.typical)
    )
    yield from _differ(say("{option}, finishes the season", option=name), _finishes(old), _finishes(new))
    was, now = ({line.key: line for line in option.lines} for option in (old, new))
    gone = [line.description for key, line in was.items() if key not in now]
    come = [line.description for key, line in now.items() if key not in was]
    if gone:
        yield RevisionChange(what=say("{option}, taken out", option=name), before="; ".join(gone), after="")
    if come:
        yield RevisionChange(what=say("{option}, put in", option=name), before="", after="; ".join(come))
    for key, line in now.items():
        if key in was:
            yield from _differ(f"{name}: {line.description}", _line(was[key]), _line(line))


def _finishes(option: Option) -> str:
    return chance_with_band(option.chance.value, option.chance.low, option.chance.high)


def _line(line: Line) -> str:
    return say(
        "{quantity} {unit} at {price}",
        quantity=plain_figure(line.quantity),
        unit=line.unit,
        price=_money(line.unit_price),
    )


def _money(amount: Decimal) -> str:
    return say_figure(amount, 2)


def _differ(what: str, before: str, after: str, *, quoted: bool = True) -> Iterator[RevisionChange]:
    if before != after:
        yield RevisionChange(
            what=what,
            before=before if quoted else say("as before"),
            after=after if quoted else say("changed"),
        )
