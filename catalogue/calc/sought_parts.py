"""What somebody types to find a part, taken apart: its words, and the number that they may be."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.search_key import search_key

LONGEST = 120
MOST_WORDS = 6
SHORTEST = 2
"""With fewer letters than this nearly every part would be found."""


@dataclass(frozen=True, slots=True)
class SoughtParts:
    """`words` are folded, so that accents, case and their order count for nothing.

    `number` is all of it as numbers are told apart, for a part number may be typed with blanks in it.
    """

    typed: str
    words: tuple[str, ...]
    number: str

    @property
    def is_enough(self) -> bool:
        return len(self.number) >= SHORTEST


def sought_parts(typed: str) -> SoughtParts:
    """Too long a text is cut off: nobody types it, and every word costs."""
    seen = " ".join(typed.replace("\x00", " ").split())[:LONGEST]
    words = tuple(dict.fromkeys(search_key(seen).split()))[:MOST_WORDS]
    return SoughtParts(seen, words, "".join(search_key(seen).split()).upper())
