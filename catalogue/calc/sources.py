"""Sources in words: the register's codes become the plain titles of the pages they stand for."""

from __future__ import annotations

import re
from collections.abc import Mapping

from catalogue.calc.said import say

CODE = re.compile(r"\bS\d{2,3}\b")
BRACKETED = re.compile(r"\s*\[(S\d{2,3})\]")


def said_parts(text: str) -> tuple[str, ...]:
    """What a `source` says in words, beside the codes that it cites.

    >>> said_parts("S12; S14; miles from memory")
    ('miles from memory',)
    """
    return tuple(part for part in text.split("; ") if part and not CODE.fullmatch(part))


def cited(text: str) -> tuple[str, ...]:
    """The register codes that `text` names, in order, each once."""
    return tuple(dict.fromkeys(CODE.findall(text)))


def in_words(text: str, titles: Mapping[str, str]) -> str:
    """A `source` with "published: title" in place of each code; an unknown code stays as it is."""
    said = "; ".join(say(part) for part in text.split("; ") if part)
    return CODE.sub(lambda found: say("published: {title}", title=titles.get(found[0], found[0])), said)


def note_in_words(text: str, titles: Mapping[str, str]) -> str:
    """A note with ", see: title" in place of each bracketed code."""
    return BRACKETED.sub(lambda found: say(", see: {title}", title=titles.get(found[1], found[1])), text)
