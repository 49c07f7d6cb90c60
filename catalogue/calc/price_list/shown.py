"""What is kept of a checked list to be shown: plain JSON, read back as values."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from decimal import Decimal
from typing import Any

from catalogue.calc.price_list.difference import Difference, Move
from catalogue.calc.price_list.offers import Find, OfferChange, followed
from catalogue.calc.price_list.standing import Stands

SHOWN = 50
"""So many of what is gone and superseded are shown, and no more than is looked at."""
REFUSED_SHOWN = 200


@dataclass(frozen=True, slots=True)
class ShownOffer:
    """One offer of the catalogue as a list changes it; sums as text, since it is kept as JSON."""

    part: str
    name: str
    key: str
    held: bool
    """It follows a price that waits for a yes."""
    cost_was: str
    cost: str
    pack_was: int
    pack: int
    number: str
    """The supplier's number, where it becomes another."""
    list_was: str
    list_price: str
    preferred: bool
    above_list: bool

    @property
    def move(self) -> Move:
        return Move(0, self.key, self.part, self.name, Decimal(self.cost_was), Decimal(self.cost))


def shown_offer(change: OfferChange, *, held: bool) -> ShownOffer:
    was, now = change.offer_was, change.offer_becomes
    return ShownOffer(
        part=change.number,
        name=change.was.name,
        key=change.key,
        held=held,
        cost_was=str(was.cost),
        cost=str(now.cost),
        pack_was=was.pack,
        pack=now.pack,
        number=now.number if now.number != was.number else "",
        list_was=str(change.was.list_price),
        list_price=str(change.becomes.list_price),
        preferred=change.is_preferred,
        above_list=change.above_list,
    )


def kept(
    found: Difference, offers: Iterable[ShownOffer], gone_offered: Sequence[str], find: Find
) -> dict[str, Any]:
    """All that the page of a list shows of it, as JSON. `gone_offered` are parts whose number is gone.

    `find`: what is listed under a key once the list is taken in.
    """
    return {
        "dearer": [_move(one) for one in found.dearer],
        "cheaper": [_move(one) for one in found.cheaper],
        "gone": [_named(one) for one in found.gone[:SHOWN]],
        "superseded": [
            [*_named(one), one.superseded_by, _in_the_end(one, find)] for one in found.superseded[:SHOWN]
        ],
        "refused": [
            [one.line, one.column, one.value, one.reason, one.allowed]
            for one in found.refused[:REFUSED_SHOWN]
        ],
        "refused_in": Counter(one.column for one in found.refused).most_common(),
        "offers": [asdict(one) for one in offers],
        "gone_offered": list(gone_offered),
    }


def _move(one: Move) -> list[Any]:
    return [one.line, one.key, one.number, one.name, str(one.was), str(one.becomes)]


def _named(one: Stands) -> list[Any]:
    return [one.number_key, one.number, one.name]


def _in_the_end(one: Stands, find: Find) -> str:
    """The last number in its place that is listed; empty where none is."""
    end = followed(one.number_key, find)
    return end.number if end is not None and end.number_key != one.number_key else ""


def moves_of(kept_moves: Iterable[Sequence[Any]]) -> list[Move]:
    """The largest changes as they were kept."""
    return [
        Move(line, key, number, name, Decimal(was), Decimal(becomes))
        for line, key, number, name, was, becomes in kept_moves
    ]


def offers_at(found: Mapping[str, Any], yes: Collection[str]) -> list[ShownOffer]:
    """Offers as they would change with the yes that is there: of a part's two ways the one that it allows."""
    by_part: dict[str, ShownOffer] = {}
    for row in found.get("offers", ()):
        one = ShownOffer(**row)
        if not one.held:
            by_part.setdefault(one.part, one)
        elif one.key in yes:
            by_part[one.part] = one
    return list(by_part.values())


def written(counts: Mapping[str, int]) -> int:
    """So many articles are written when a list with these counts is taken in."""
    kinds = ("new", "dearer", "cheaper", "superseded", "reworded", "gone")
    return sum(counts.get(kind, 0) for kind in kinds) - counts.get("held", 0) + counts.get("yes", 0)
