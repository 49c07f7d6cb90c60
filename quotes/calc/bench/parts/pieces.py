"""What became of the pieces of an order line: each is in one place, and together they are what was ordered.

Pieces are counted by kind of event; those of no kind are still open. A kind's count is the sum of its events,
which may be below nought: a slip is put right by a further event, and pieces that move on are taken off where
they were.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, get_args

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.bench.said import exact

EventKind = Literal["received", "damaged", "wrong", "back_ordered", "returned", "cancelled"]
KINDS: tuple[EventKind, ...] = get_args(EventKind)
TO_COME: tuple[EventKind, ...] = ("back_ordered",)
"""Where pieces that come, or are given up, are taken from once no more are open."""
HERE: tuple[EventKind, ...] = ("damaged", "wrong", "received")
"""What can go back to the supplier; what is no good goes first."""
IN_WORDS: Mapping[EventKind, str] = {
    "received": to_say("here and good"),
    "damaged": to_say("here and damaged"),
    "wrong": to_say("here and the wrong part"),
    "back_ordered": to_say("on back-order"),
    "returned": to_say("gone back"),
    "cancelled": to_say("cancelled"),
}
COUNTED: Mapping[EventKind, str] = {
    "received": to_say("{count} here and good"),
    "damaged": to_say("{count} here and damaged"),
    "wrong": to_say("{count} here and the wrong part"),
    "back_ordered": to_say("{count} on back-order"),
    "returned": to_say("{count} gone back"),
    "cancelled": to_say("{count} cancelled"),
}
Move = tuple[EventKind, Decimal]


class NotSoMany(ValueError):
    """More pieces than there can be; the message says how many, and how to mend it."""


@dataclass(frozen=True, slots=True)
class Standing:
    """The pieces of one order line, by what became of them."""

    ordered: Decimal
    counts: Mapping[EventKind, Decimal]

    def of(self, kind: EventKind) -> Decimal:
        return self.counts.get(kind, ZERO)

    @property
    def open(self) -> Decimal:
        """Ordered, and nothing heard of since."""
        return self.ordered - sum(self.counts.values(), ZERO)

    @property
    def to_come(self) -> Decimal:
        """Open or on back-order."""
        return self.open + self.of("back_ordered")

    @property
    def to_settle(self) -> Decimal:
        """Here, and no good: to be sent back."""
        return self.of("damaged") + self.of("wrong")

    @property
    def done(self) -> bool:
        """Whether nothing of the line waits for anybody."""
        return not self.to_come and not self.to_settle

    def words(self) -> str:
        """Where the pieces are: `2 here and good, 1 on back-order, 1 open`."""
        parts = [say(COUNTED[kind], count=plain(self.of(kind))) for kind in KINDS if self.of(kind)]
        return ", ".join([*parts, say("{count} open", count=plain(self.open))] if self.open else parts)


def standing(ordered: Decimal, events: Iterable[tuple[EventKind, Decimal]]) -> Standing:
    """The pieces of a line after these events."""
    counts = dict.fromkeys(KINDS, ZERO)
    for kind, quantity in events:
        counts[kind] += quantity
    return Standing(ordered, counts)


def moves(now: Standing, kind: EventKind, quantity: Decimal) -> tuple[Move, ...]:
    """What is written down for so many pieces of a kind, and off which kinds they are taken.

    Below nought takes back what was written by mistake: the pieces are open again. NotSoMany where there are
    not so many.
    """
    if not quantity:
        raise NotSoMany(say("0 pieces is nothing to write down: give how many."))
    if quantity < ZERO:
        return _taken_back(now, kind, -quantity)
    if kind == "returned":
        return ((kind, quantity), *_from_here(now, quantity))
    if quantity > now.to_come:
        raise NotSoMany(_too_many(now, kind, quantity))
    # Heard of again, pieces on back-order get their new day by being counted off and on.
    of_open = min(quantity, now.open)
    rest = quantity - of_open
    return ((kind, quantity), *(((one, -rest) for one in TO_COME) if rest else ()))


def _taken_back(now: Standing, kind: EventKind, quantity: Decimal) -> tuple[Move, ...]:
    if quantity > now.of(kind):
        places = {"quantity": plain(quantity), "left": plain(now.of(kind)), "how": say(IN_WORDS[kind])}
        if now.of(kind) == 1:
            raise NotSoMany(say("{quantity} can't be taken back: only {left} is {how}.", **places))
        raise NotSoMany(say("{quantity} can't be taken back: only {left} are {how}.", **places))
    return ((kind, -quantity),)


def _from_here(now: Standing, quantity: Decimal) -> Iterable[Move]:
    left, taken = quantity, []
    for kind in HERE:
        if part := min(left, now.of(kind)):
            taken.append((kind, -part))
            left -= part
    if left:
        raise NotSoMany(
            say(
                "{quantity} can't go back: only {here} of {ordered} are here.",
                quantity=plain(quantity),
                here=plain(quantity - left),
                ordered=plain(now.ordered),
            )
        )
    return taken


def _too_many(now: Standing, kind: EventKind, quantity: Decimal) -> str:
    if kind == "cancelled":
        mend = say("What is here goes back instead.")
    elif kind == "back_ordered":
        mend = say("What is here can't be on back-order.")
    else:
        mend = say("Set the others aside: they go back, and are not ours.")
    places = {
        "quantity": plain(quantity),
        "to_come": plain(now.to_come),
        "ordered": plain(now.ordered),
        "mend": mend,
    }
    if not now.words():
        return say("{quantity} is more than is still to come: {to_come} of {ordered}. {mend}", **places)
    return say(
        "{quantity} is more than is still to come: {to_come} of {ordered} ({words}). {mend}",
        words=now.words(),
        **places,
    )


def plain(quantity: Decimal) -> str:
    """Pieces without needless noughts: 4, 2.5."""
    return exact(quantity.normalize()) if quantity else "0"
