"""A list held against what stands: what it changes, what it may not change without a yes, what is gone."""

from __future__ import annotations

import heapq
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from catalogue.calc.money import HUNDRED, ZERO, round_half_up
from catalogue.calc.price_list.listed import Listed, Rejected
from catalogue.calc.price_list.refused import sound_rows
from catalogue.calc.price_list.standing import Stands, as_listed

LARGEST = 20
"""So many of the largest changes are shown either way."""
Kind = Literal["new", "dearer", "cheaper", "unchanged", "superseded"]
KINDS: tuple[Kind, ...] = ("new", "dearer", "cheaper", "unchanged", "superseded")


@dataclass(frozen=True, slots=True)
class Rule:
    """How one supplier's list is taken."""

    currency: str
    rate: Decimal | None
    """None where the list is in the catalogue's own currency."""
    jump_percent: Decimal
    whole: bool = True
    """What a whole list leaves out is gone."""


@dataclass(frozen=True, slots=True)
class Move:
    """A price that moves, in the catalogue's currency."""

    line: int
    key: str
    number: str
    name: str
    was: Decimal
    becomes: Decimal

    @property
    def percent(self) -> Decimal:
        """By how much of what it was; a price that was nought moves by a hundred."""
        return round_half_up(HUNDRED * (self.becomes - self.was) / self.was, 1) if self.was else HUNDRED


@dataclass(slots=True)
class Difference:
    """What a list does. `write` and `gone` are the rows as they shall be; what is held is in neither."""

    counts: dict[str, int]
    write: list[Stands] = field(default_factory=list)
    gone: list[Stands] = field(default_factory=list)
    held: list[Move] = field(default_factory=list)
    would_be: dict[str, Stands] = field(default_factory=dict)
    """What the held rows would be, by key."""
    dearer: list[Move] = field(default_factory=list)
    cheaper: list[Move] = field(default_factory=list)
    superseded: list[Stands] = field(default_factory=list)
    refused: list[Rejected] = field(default_factory=list)

    @property
    def changes_something(self) -> bool:
        return bool(self.write or self.gone)


def difference(
    rows: Iterable[Listed],
    stands: Mapping[str, Stands],
    rule: Rule,
    *,
    offered: Mapping[str, Decimal] | None = None,
    yes: Mapping[str, Decimal] | None = None,
    unread: Collection[str] = (),
) -> Difference:
    """Hold each row against what stands.

    By key: `offered` is what an offer asks that no list has told of yet, `yes` the prices that the owner has
    said yes to. `unread` are the keys of rows that could not be read: what they list is not gone.
    """
    given = list(rows)
    sound, refused = sound_rows(given)
    found = Difference(counts=dict.fromkeys((*KINDS, "reworded", "gone", "held", "yes"), 0), refused=refused)
    moves: dict[Kind, list[Move]] = {"dearer": [], "cheaper": []}
    for key, row in sound:
        now = as_listed(row, key, rule.currency, rule.rate)
        _take(row.line, stands.get(key), now, rule, found, moves, offered or {}, yes or {})
    found.dearer = _largest(moves["dearer"])
    found.cheaper = _largest(moves["cheaper"])
    if rule.whole:
        there = {key for key, _ in sound}.union((row.key for row in given) if refused else (), unread)
        found.gone = [
            one._replace(gone=True) for key, one in stands.items() if key not in there and not one.gone
        ]
    found.counts |= {
        "gone": len(found.gone),
        "refused": len(refused),
        "twice": len(given) - len(sound) - len(refused),
    }
    return found


def _take(
    line: int,
    was: Stands | None,
    now: Stands,
    rule: Rule,
    found: Difference,
    moves: dict[Kind, list[Move]],
    offered: Mapping[str, Decimal],
    yes: Mapping[str, Decimal],
) -> None:
    """One row: counted by what it is, and written unless nothing differs or it is held."""
    if was == now:
        found.counts["unchanged"] += 1
        return
    kind = kind_of(was, now)
    found.counts[kind] += 1
    before = was.own_cost if was is not None else offered.get(now.number_key)
    if before is not None and before != now.own_cost:
        move = Move(line, now.number_key, now.number, now.name, before, now.own_cost)
        if jumps(before, now.own_cost, rule.jump_percent):
            found.held.append(move)
            found.counts["held"] += 1
            if yes.get(now.number_key) != now.own_cost:
                found.would_be[now.number_key] = now
                return
            found.counts["yes"] += 1
        if kind in moves:
            moves[kind].append(move)
    if kind == "unchanged":
        found.counts["reworded"] += 1
    if kind == "superseded":
        found.superseded.append(now)
    found.write.append(now)


def kind_of(was: Stands | None, now: Stands) -> Kind:
    """What happens to an article. One that names another in its place is superseded, whatever it costs."""
    if now.superseded_by and (was is None or was.superseded_by != now.superseded_by):
        return "superseded"
    if was is None or was.gone:
        return "new"
    if now.own_cost == was.own_cost:
        return "unchanged"
    return "dearer" if now.own_cost > was.own_cost else "cheaper"


def jumps(was: Decimal, becomes: Decimal, percent: Decimal) -> bool:
    """Whether a price moves by more than so many per cent, either way. From nought every price jumps."""
    return abs(becomes - was) * HUNDRED > was * percent if was > ZERO else becomes > ZERO


def _largest(moves: Iterable[Move]) -> list[Move]:
    return heapq.nlargest(LARGEST, moves, key=lambda one: (abs(one.percent), one.becomes, -one.line))
