"""Names as a customer reads them, alone and in a row."""

from __future__ import annotations

import re
from collections.abc import Sequence

from catalogue.calc.said import say, say_inside
from quotes.calc.sheet.words import listed


def plain_name(name: str) -> str:
    """A part's name as a customer reads it, without the remarks in brackets that the bench needs.

    >>> plain_name("valve spring (set per valve)"), plain_name("piston (gudgeon) pin")
    ('valve spring', 'piston pin')
    """
    return re.sub(r"\s*\([^)]*\)", "", name).strip() or name


def inside(words: str) -> str:
    """The same with a small first letter, for the inside of a sentence; abbreviations stay as they are.

    >>> inside("Full power"), inside("GP kit")
    ('full power', 'GP kit')
    """
    return say_inside(words)


def listed_up_to(most: int, names: Sequence[str], rest: str) -> str:
    """Names in a row, the first of them only where there are many; `rest` is what the others are, as said.

    >>> listed_up_to(2, ["rings", "pins", "rods", "bolts"], "more parts")
    'rings, pins and 2 more parts'
    """
    if len(names) <= most + 1:
        return listed(names)
    return listed([*names[:most], f"{len(names) - most} {rest}"])


def said_unit(unit: str) -> str:
    """The unit of a line in the reader's language; one that somebody wrote himself as it stands.

    >>> said_unit("per_valve")
    'per valve'
    """
    plain = plain_name(unit).replace("_", " ")
    return say(plain) if plain else ""
