"""Which payment of a statement settles which open item: sure, likely or none, each with its reason in words.

Sure is what names the invoice and brings its sum. All else is for somebody to look at, and nothing is taken
by itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from difflib import SequenceMatcher
from functools import lru_cache
from typing import Literal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_figure
from catalogue.calc.search_key import search_key

Certainty = Literal["sure", "likely", "none"]
ALIKE = 0.85
"""How like two names have to be, of 1: a slip of a letter passes, another name does not. From memory."""
SHORTEST_WORD = 3


@dataclass(frozen=True, slots=True)
class ItemToMatch:
    """An item of a customer's account that is, or was, owed. `open_amount` is nought where it is settled."""

    pk: int
    number: str
    customer_pk: int
    customer: str
    open_amount: Decimal


@dataclass(frozen=True, slots=True)
class LineToMatch:
    """A line of a statement that waits. `amount` is above nought where money came in."""

    pk: int
    row: int
    amount: Decimal
    payer: str
    text: str


@dataclass(frozen=True, slots=True)
class Settles:
    """So much of the payment for an item."""

    item_pk: int
    number: str
    amount: Decimal


@dataclass(frozen=True, slots=True)
class Match:
    """What a line is proposed to be. `over` stays in credit on the customer's account."""

    line_pk: int
    certainty: Certainty
    why: str
    customer_pk: int | None = None
    customer: str = ""
    settles: tuple[Settles, ...] = ()
    over: Decimal = ZERO


def match_lines(lines: Iterable[LineToMatch], items: Sequence[ItemToMatch]) -> tuple[Match, ...]:
    """A proposal for each line, in their order. What a line before has settled is not open any more."""
    left = {item.pk: item.open_amount for item in items}
    found = []
    for line in sorted(lines, key=lambda one: one.row):
        match = _match(line, items, left)
        for part in match.settles:
            left[part.item_pk] -= part.amount
        found.append(match)
    return tuple(found)


def _match(line: LineToMatch, items: Sequence[ItemToMatch], left: Mapping[int, Decimal]) -> Match:
    if line.amount <= ZERO:
        why = say("money that went out") if line.amount else say("no money moved")
        return Match(line.pk, "none", why)
    named = [item for item in items if names(item.number, f"{line.text} {line.payer}")]
    if named:
        return _by_number(line, named, left)
    return _by_sum(line, items, left)


def names(number: str, text: str) -> bool:
    """Whether a text bears the number, with or without its blanks and dashes, case aside.

    A longer number that begins like it is another one.

    >>> names("I-2026-0001", "rechnung i 20260001 danke"), names("I-2026-0001", "I-2026-00012")
    (True, False)
    """
    return _pattern(number).search(text) is not None


@lru_cache(maxsize=4096)
def _pattern(number: str) -> re.Pattern[str]:
    signs = [re.escape(char) for char in number if char.isalnum()]
    # Before a number that begins with a figure no figure may stand, after it none at all.
    before = r"(?<!\d)" if signs and signs[0].isdigit() else ""
    return re.compile(before + r"[\W_]*".join(signs) + r"(?!\d)" if signs else r"(?!)", re.IGNORECASE)


def _by_number(line: LineToMatch, named: Sequence[ItemToMatch], left: Mapping[int, Decimal]) -> Match:
    owners = {item.customer_pk for item in named}
    if len(owners) > 1:
        said = ", ".join(item.number for item in named)
        return Match(line.pk, "none", say("names documents of several customers: {numbers}", numbers=said))
    still = [item for item in named if left[item.pk] > ZERO]
    owed = sum((left[item.pk] for item in still), ZERO)
    parts, over = _spread(line.amount, still, left)
    return Match(
        line_pk=line.pk,
        certainty="sure" if owed == line.amount else "likely",
        why=_words(_numbers(named), line.amount, owed),
        customer_pk=named[0].customer_pk,
        customer=named[0].customer,
        settles=parts,
        over=over,
    )


def _numbers(named: Sequence[ItemToMatch]) -> str:
    said = named[0].number
    for item in named[1:]:
        said = say("{one} and {other}", one=said, other=item.number)
    return said


def _words(numbers: str, amount: Decimal, owed: Decimal) -> str:
    if owed == amount:
        return say("names {numbers}, and the sum is what is open", numbers=numbers)
    if not owed:
        return say("names {numbers}, of which nothing is open any more", numbers=numbers)
    if amount < owed:
        return say("names {numbers}: a part of the {owed} that is open", numbers=numbers, owed=_sum(owed))
    return say(
        "names {numbers}: {over} more than the {owed} that is open",
        numbers=numbers,
        over=_sum(amount - owed),
        owed=_sum(owed),
    )


def _sum(amount: Decimal) -> str:
    """As it stands, with the reader's decimal mark."""
    return f"{amount:f}".replace(".", say_figure(0, 1)[1])


def _spread(
    amount: Decimal, items: Sequence[ItemToMatch], left: Mapping[int, Decimal]
) -> tuple[tuple[Settles, ...], Decimal]:
    """The sum over the items in their order, and what is left of it."""
    parts, rest = [], amount
    for item in items:
        part = min(rest, left[item.pk])
        if part > ZERO:
            parts.append(Settles(item.pk, item.number, part))
            rest -= part
    return tuple(parts), rest


def _by_sum(line: LineToMatch, items: Sequence[ItemToMatch], left: Mapping[int, Decimal]) -> Match:
    """By the sum and the payer's name together; either alone proves nothing."""
    equal = [item for item in items if left[item.pk] == line.amount]
    fits = [item for item in equal if alike(line.payer or line.text, item.customer)]
    if len(fits) == 1:
        (item,) = fits
        part = Settles(item.pk, item.number, line.amount)
        why = say(
            "names no document; the sum is that of {number} and the payer's name is alike", number=item.number
        )
        return Match(line.pk, "likely", why, item.customer_pk, item.customer, (part,))
    if fits:
        said = ", ".join(item.number for item in fits)
        why = say("names no document, and the sum is that of several: {numbers}", numbers=said)
        owners = {(item.customer_pk, item.customer) for item in fits}
        pk, name = owners.pop() if len(owners) == 1 else (None, "")
        return Match(line.pk, "none", why, pk, name)
    if equal:
        return Match(line.pk, "none", say("names no document; the sum is open, but under another name"))
    return Match(line.pk, "none", say("names no document, and no open sum is this"))


def alike(one: str, other: str) -> bool:
    """Whether two names are alike: the words of one among those of the other, or nearly the same letters.

    >>> [alike(one, "Marel Otten") for one in ("OTTEN, MAREL", "M. Otten", "Marel Ottn", "Marel Voss")]
    [True, True, True, False]
    """
    first, second = _words_of(one), _words_of(other)
    if not first or not second:
        return False
    if set(first) <= set(second) or set(second) <= set(first):
        return True
    return SequenceMatcher(None, " ".join(first), " ".join(second)).ratio() >= ALIKE


def _words_of(name: str) -> list[str]:
    """The words of a name in the order of letters, without the shortest: of, the, co."""
    return sorted(word for word in search_key(name).split() if len(word) >= SHORTEST_WORD)
