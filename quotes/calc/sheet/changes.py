"""What differs between two sheets of one quote, in words that a customer can read."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from quotes.calc.sheet.values import Change, Comparison, Line, Option, Sheet
from quotes.calc.sheet.words import chance_with_band

CHECKS = {
    "each_meeting": "at each meeting",
    "each_season": "once a season",
    "never": "not in between",
}


def sheet_changes(before: Sheet, after: Sheet) -> tuple[Change, ...]:
    """The differences that matter to the customer, from the whole to the single line; dates stay out."""
    return (*_heading(before, after), *_asked(before, after), *_options(before, after))


def _heading(before: Sheet, after: Sheet) -> Iterator[Change]:
    old, new = before.heading, after.heading
    yield from _differ("Customer", old.customer.name, new.customer.name)
    yield from _differ("Engine", old.engine_name, new.engine_name)
    yield from _differ("Engine number", old.engine_number, new.engine_number)
    yield from _differ("Class", old.class_name, new.class_name)
    yield from _differ("Terms", *(" ".join(sheet.terms) for sheet in (before, after)), quoted=False)


def _asked(before: Sheet, after: Sheet) -> Iterator[Change]:
    old, new = before.comparison, after.comparison
    yield from _differ("Service so far", " ".join(old.history_in_words), " ".join(new.history_in_words))
    yield from _differ("Planned service", old.planned_in_words, new.planned_in_words)
    yield from _differ("Aim", old.target_in_words, new.target_in_words)
    yield from _differ("Checked", CHECKS.get(old.checks, old.checks), CHECKS.get(new.checks, new.checks))
    yield from _differ("Price", _firmness(old), _firmness(new))


def _firmness(comparison: Comparison) -> str:
    return "firm" if comparison.firm else "a band, until the strip-down"


def _options(before: Sheet, after: Sheet) -> Iterator[Change]:
    old = {option.tier: option for option in before.comparison.options}
    new = {option.tier: option for option in after.comparison.options}
    for tier in [*new, *(tier for tier in old if tier not in new)]:
        if tier not in old:
            yield Change(
                what=f"{new[tier].name}", before="not offered", after=_money(new[tier].gross.typical)
            )
        elif tier not in new:
            yield Change(
                what=f"{old[tier].name}", before=_money(old[tier].gross.typical), after="not offered"
            )
        else:
            yield from _option(old[tier], new[tier])


def _option(old: Option, new: Option) -> Iterator[Change]:
    name = new.name
    yield from _differ(f"{name}, with tax", _money(old.gross.typical), _money(new.gross.typical))
    yield from _differ(f"{name}, finishes the season", _finishes(old), _finishes(new))
    was, now = ({line.key: line for line in option.lines} for option in (old, new))
    gone = [line.description for key, line in was.items() if key not in now]
    come = [line.description for key, line in now.items() if key not in was]
    if gone:
        yield Change(what=f"{name}, taken out", before="; ".join(gone), after="")
    if come:
        yield Change(what=f"{name}, put in", before="", after="; ".join(come))
    for key, line in now.items():
        if key in was:
            yield from _differ(f"{name}: {line.description}", _line(was[key]), _line(line))


def _finishes(option: Option) -> str:
    return chance_with_band(option.chance.value, option.chance.low, option.chance.high)


def _line(line: Line) -> str:
    return f"{line.quantity.normalize():f} {line.unit} at {_money(line.unit_price)}"


def _money(amount: Decimal) -> str:
    return f"{amount:,.2f}"


def _differ(what: str, before: str, after: str, *, quoted: bool = True) -> Iterator[Change]:
    if before != after:
        yield Change(
            what=what, before=before if quoted else "as before", after=after if quoted else "changed"
        )
