"""What the page of a price list shows of it: counts with what they mean, moves, offers, refused rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.core.paginator import Page, Paginator

from catalogue.calc.price_list.difference import Move
from catalogue.calc.price_list.shown import ShownOffer, moves_of, offers_at, written
from catalogue.calc.said import say, to_say
from catalogue.models import HeldPrice, ListState, PriceList

HELD_SHOWN = 50
MUCH_GONE = 10
"""Where more than one in so many is gone, the list may be a part only."""
MUCH_REFUSED = 5
"""Where one line in so many is refused, another column or decimal mark may be the right one."""
LINES = (
    ("new", to_say("New"), to_say("not listed before, or listed again")),
    ("dearer", to_say("Dearer"), to_say("cost more than before")),
    ("cheaper", to_say("Cheaper"), to_say("cost less than before")),
    (
        "unchanged",
        to_say("Unchanged"),
        to_say("{reworded} of them with another name, unit, pack or list price"),
    ),
    ("superseded", to_say("Superseded"), to_say("name another number in their place")),
    ("held", to_say("Held"), to_say("of those above: none without the owner's yes")),
    ("refused", to_say("Refused"), to_say("left as they stand, with the reason below")),
    ("twice", to_say("Said twice"), to_say("a row that stands twice alike")),
    ("passed_over", to_say("Passed over"), to_say("heads, titles, notes and repeated rows")),
    ("gone", to_say("Gone"), to_say("listed before and left out now")),
)

BEFORE_AFTER = (to_say("It costs"), to_say("It will cost"))
BEFORE_AFTER_PAST = (to_say("Before"), to_say("With the list"))
OFFERED_SHOWN = 12
"""So many parts are named whose number is gone."""

ALWAYS = ("new", "dearer", "cheaper", "unchanged", "superseded", "refused", "gone")
"""That there are none of these is told too."""


@dataclass(frozen=True, slots=True)
class Superseded:
    """A number that another took the place of; `end` is the last of them that is listed, if one is."""

    number: str
    name: str
    by: str
    end: str | None
    """None where that was not noted yet."""

    @property
    def words(self) -> str:
        if self.end == "":
            return say("{by} in its place, which is not listed: offers stay with this number", by=self.by)
        if self.end is None or self.end == self.by:
            return say("{by} in its place", by=self.by)
        return say("{by} in its place, in the end {end}", by=self.by, end=self.end)


@dataclass(frozen=True, slots=True)
class Shown:
    """One list for its page."""

    counts: Sequence[tuple[str, int, str]]
    writes: int
    """So many articles are written when it is taken in."""
    held: Page[HeldPrice]
    held_open: int
    dearer: Sequence[Move]
    cheaper: Sequence[Move]
    offers: Sequence[ShownOffer]
    found: dict[str, Any]
    much_gone: bool
    much_refused: bool

    @property
    def held_rows(self) -> list[tuple[HeldPrice, Move, list[str]]]:
        """Held prices of the page with by how much they move, and the catalogue's parts that follow them."""
        follow: dict[str, list[str]] = {}
        for one in self.found.get("offers", ()):
            if one["held"]:
                follow.setdefault(one["key"], []).append(one["part"])
        return [
            (
                one,
                Move(one.line, one.number_key, one.number, one.name, one.was, one.becomes),
                follow.get(one.number_key, []),
            )
            for one in self.held
        ]

    @property
    def superseded(self) -> list[Superseded]:
        rows = self.found.get("superseded", ())
        return [
            Superseded(number, name, by, end[0] if end else None) for _key, number, name, by, *end in rows
        ]

    @property
    def gone_offered(self) -> str:
        """Parts of the catalogue whose number is gone; the first of many."""
        parts = self.found.get("gone_offered", ())
        first = ", ".join(parts[:OFFERED_SHOWN])
        more = len(parts) - OFFERED_SHOWN
        return say("{first} and {more} more", first=first, more=more) if more > 0 else first

    @property
    def above_list(self) -> bool:
        return any(one.above_list for one in self.offers)


def shown(row: PriceList, page: str) -> Shown:
    """What was found of a list, with the page of its held prices that is asked for."""
    counts = row.counts
    rows = HeldPrice.objects.filter(price_list=row).select_related("yes_by").order_by("yes_at", "line")
    said = set(rows.exclude(yes_at=None).values_list("number_key", flat=True)) if counts.get("yes") else set()
    known = sum(counts.get(kind, 0) for kind in ("dearer", "cheaper", "unchanged", "superseded", "gone"))
    return Shown(
        counts=[
            (say(label), counts[kind], _note(kind, note, counts))
            for kind, label, note in LINES
            if counts.get(kind) or (counts and kind in ALWAYS)
        ],
        writes=written(counts),
        held=Paginator(rows, HELD_SHOWN).get_page(page),
        held_open=counts.get("held", 0) - counts.get("yes", 0),
        dearer=moves_of(row.found.get("dearer", ())),
        cheaper=moves_of(row.found.get("cheaper", ())),
        offers=sorted(offers_at(row.found, said), key=lambda one: -abs(one.move.percent)),
        found=row.found,
        much_gone=row.state == ListState.CHECKED and counts.get("gone", 0) * MUCH_GONE > known,
        much_refused=row.state == ListState.CHECKED
        and counts.get("refused", 0) * MUCH_REFUSED >= max(counts.get("lines", 0), 1),
    )


def _note(kind: str, note: str, counts: Mapping[str, int]) -> str:
    """What a count means; of what is unchanged only where something else of it differs."""
    if kind == "unchanged" and not counts["reworded"]:
        return say("cost what they did before")
    return say(note, reworded=counts["reworded"])
