"""A text with places that are filled in anew: names, numbers, and days that move together."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

DAY = r"(?<![\w-])\d{4}-\d{2}-\d{2}(?![\d-])"


@dataclass(frozen=True, slots=True)
class Template:
    """`parts` stand around the places; a place is the name of a text, or a day counted from year 1."""

    parts: tuple[str, ...]
    places: tuple[str | int, ...]

    def filled(self, texts: Mapping[str, str], days: int) -> str:
        """The text with these in its places, and its days so many later."""
        made = [self.parts[0]]
        for place, part in zip(self.places, self.parts[1:], strict=True):
            made.append(texts[place] if isinstance(place, str) else _iso(place + days))
            made.append(part)
        return "".join(made)


@lru_cache(maxsize=10_000)
def _iso(day: int) -> str:
    return date.fromordinal(day).isoformat()


def template(text: str, names: Mapping[str, str]) -> Template | str:
    """The text with every marker (key of `names`) and every day as a place; as it is where it has none."""
    longest_first = sorted(map(re.escape, names), key=len, reverse=True)
    found = re.compile("|".join([*longest_first, DAY]))
    parts, places, last = [], list[str | int](), 0
    for match in found.finditer(text):
        marker = match.group()
        parts.append(text[last : match.start()])
        places.append(names[marker] if marker in names else date.fromisoformat(marker).toordinal())
        last = match.end()
    return Template((*parts, text[last:]), tuple(places)) if places else text
