"""What somebody looks for in the box of the page's head, and what was found: plain values."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.calc.search_key import search_key

LONGEST = 120
"""So much of what was typed is looked at."""
MOST_WORDS = 6
SHORTEST = 2
"""With fewer letters than this nearly everything would be found."""
TYPED_NUMBER = re.compile(r"([a-z])[ -]?(?:(20[0-9]{2})[ -]?([0-9]{4,})|([0-9]{5,}))", re.IGNORECASE)


def number_meant(typed: str) -> str:
    """The number of a document as it is printed, however it was typed (q20260004); else nothing."""
    read = TYPED_NUMBER.fullmatch(" ".join(typed.split()))
    if read is None:
        return ""
    letter, year, yearly, through = read.groups()
    return f"{letter.upper()}-{year}-{yearly}" if year else f"{letter.upper()}-{through}"


A_BEGINNING = re.compile(r"([a-z])([0-9]*)")


def beginnings(word: str) -> tuple[str, ...]:
    """How printed numbers begin that begin with a folded word: of a year, or through the years."""
    read = A_BEGINNING.fullmatch(word)
    if read is None:
        return (word,)
    letter, digits = read[1].upper(), read[2]
    of_a_year = f"{letter}-{digits[:4]}-{digits[4:]}" if digits[4:] else f"{letter}-{digits}"
    return tuple(dict.fromkeys((of_a_year, f"{letter}-{digits}")))


CUSTOMER_NUMBER = re.compile(r"c[ -]?0*([1-9][0-9]{0,8})", re.IGNORECASE)


def customer_meant(typed: str) -> int | None:
    """The number of a customer as the shop writes it (C-7), however it was typed."""
    read = CUSTOMER_NUMBER.fullmatch(" ".join(typed.split()))
    return int(read[1]) if read else None


@dataclass(frozen=True, slots=True)
class Sought:
    """What was typed, taken apart. `words` are folded, so that accents and case count for nothing."""

    typed: str
    words: tuple[str, ...]
    number: str
    customer: int | None = None

    @property
    def is_enough(self) -> bool:
        return len("".join(self.words)) >= SHORTEST


def sought(typed: str) -> Sought:
    """Too long a text is cut off: nobody types it, and every word costs."""
    seen = " ".join(typed.replace("\x00", " ").split())[:LONGEST]
    return Sought(
        seen, tuple(search_key(seen).split()[:MOST_WORDS]), number_meant(seen), customer_meant(seen)
    )


@dataclass(frozen=True, slots=True)
class Hit:
    """One thing found: where it is shown, what it is called, what is told of it, and by what it was found."""

    page: str
    args: tuple[object, ...]
    title: str
    told: tuple[str, ...]
    by: tuple[str, ...]
    exact: bool


@dataclass(frozen=True, slots=True)
class Found:
    """What was found of one kind; `more` where there is still more than is shown."""

    title: str
    hits: tuple[Hit, ...]
    more: bool


def matching(words: Iterable[str], fields: Iterable[tuple[str, str]]) -> tuple[str, ...]:
    """The labels of the fields in which one of the words stands, with and without the blanks between."""
    keys = [(label, search_key(value)) for label, value in fields]
    return tuple(label for label, key in keys if any(_stands_in(word, key) for word in words))


def _stands_in(word: str, key: str) -> bool:
    return word in key or word in key.replace(" ", "")


def is_exactly(looked_for: Sought, title: str) -> bool:
    """Whether a number is the very one that was typed, dashes and blanks aside."""
    typed = "".join(looked_for.words)
    return bool(typed) and search_key(title).replace(" ", "") == typed


def the_one_meant(groups: Iterable[Found]) -> Hit | None:
    """The only thing that bears the number typed; None where there is none, or more than one."""
    exact = [hit for group in groups for hit in group.hits if hit.exact]
    return exact[0] if len(exact) == 1 else None
