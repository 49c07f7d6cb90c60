"""Rows of a list that were read but can't be taken: they contradict themselves or another row."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal

from catalogue.calc.price_list.chain import in_circle, successors
from catalogue.calc.price_list.listed import Listed, Rejected
from catalogue.calc.said import say, say_figure, to_say

LONGEST_NUMBER = 100
MOST_DAYS = 1000
MOST_IN_A_PACK = 1_000_000
DEAREST = Decimal(10_000_000)
NAMES = {
    "number": to_say("part number"),
    "cost": to_say("cost"),
    "list_price": to_say("list price"),
    "pack": to_say("pack"),
    "lead_days": to_say("days to arrive"),
    "superseded_by": to_say("superseded by"),
}
"""What the columns are called where a file's own heads are not at hand."""
Keyed = tuple[str, Listed]
"""A row with the key of its number, which takes a while to work out."""


def under_heads(refused: Iterable[Rejected], heads: Mapping[str, str]) -> list[Rejected]:
    """What was refused here, its column called as in the file."""
    return [replace(one, column=heads.get(one.column) or say(NAMES[one.column])) for one in refused]


def sound_rows(rows: Iterable[Listed]) -> tuple[list[Keyed], list[Rejected]]:
    """The rows that can be taken, each once, and those that can't, with why and the code of the column."""
    seen: dict[str, Listed] = {}
    kept: list[Keyed] = []
    refused: list[Rejected] = []
    for row in rows:
        key = row.key
        if fault := _of_itself(row, key) or _of_another(row, seen.get(key)):
            refused.append(fault)
        elif key not in seen:
            seen[key] = row
            kept.append((key, row))
    return _without_circles(kept, refused)


def _of_itself(row: Listed, key: str) -> Rejected | None:
    if row.list_price is not None and row.list_price < row.cost:
        return Rejected(
            row.line,
            "list_price",
            _price(row.list_price),
            say("is below the cost of {cost}", cost=_price(row.cost)),
            say("a list price of the cost or more; or the two columns are taken for one another"),
        )
    if row.cost > DEAREST:
        return Rejected(
            row.line,
            "cost",
            str(row.cost),
            say("no part costs so much"),
            say("at most {most}", most=say_figure(DEAREST, 0)),
        )
    for column, number in (("number", row.number), ("superseded_by", row.superseded_by)):
        if len(number) > LONGEST_NUMBER or len(key) > LONGEST_NUMBER:
            allowed = say("at most {most} characters", most=LONGEST_NUMBER)
            return Rejected(row.line, column, number, say("a number can't be so long"), allowed)
    return _of_counts(row)


def _price(amount: Decimal) -> str:
    """At least two decimals, and no nought behind them."""
    exponent = amount.normalize().as_tuple().exponent
    return say_figure(amount, max(2, -exponent if isinstance(exponent, int) else 2))


def _of_counts(row: Listed) -> Rejected | None:
    for column, value, most in (("pack", row.pack, MOST_IN_A_PACK), ("lead_days", row.lead_days, MOST_DAYS)):
        if value is not None and not 0 <= value <= most:
            allowed = say("0 to {most}", most=say_figure(most, 0))
            return Rejected(row.line, column, str(value), say("out of reach"), allowed)
    return None


def _of_another(row: Listed, first: Listed | None) -> Rejected | None:
    """A number that stands twice is one row where both say the same, else the second is refused."""
    if first is None or _says(first) == _says(row):
        return None
    return Rejected(
        row.line,
        "number",
        row.number,
        say(
            "line {line} has the same number with other terms ({cost})",
            line=first.line,
            cost=_price(first.cost),
        ),
        say("a number once; case, blanks and marks make no other number"),
    )


def _says(row: Listed) -> tuple[object, ...]:
    return (row.cost, row.list_price, row.unit, row.pack, row.superseded_by)


def _without_circles(kept: list[Keyed], refused: list[Rejected]) -> tuple[list[Keyed], list[Rejected]]:
    circles = in_circle(successors(row for _, row in kept if row.superseded_by))
    if not circles:
        return kept, refused
    for key, row in kept:
        if key in circles:
            reason = say("the numbers that follow it lead back to it")
            allowed = say("a number that another took the place of, not in a circle")
            refused.append(Rejected(row.line, "superseded_by", row.superseded_by, reason, allowed))
    return [(key, row) for key, row in kept if key not in circles], sorted(refused, key=lambda one: one.line)
