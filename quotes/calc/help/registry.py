"""Every help sentence by its key. A page names the key; nothing is said twice."""

from __future__ import annotations

from catalogue.calc.said import to_say
from quotes.calc.help.kept import BENCH, BOOKS
from quotes.calc.help.quoted import QUOTED
from quotes.calc.help.values import Help

AREAS: tuple[tuple[str, dict[str, Help]], ...] = (
    (to_say("Quotes"), QUOTED),
    (to_say("Bench and record"), BENCH),
    (to_say("Books"), BOOKS),
)
HELP: dict[str, Help] = {key: one for _, area in AREAS for key, one in area.items()}


def helped(*keys: str) -> tuple[Help, ...]:
    """The sentences of these keys in the reader's language; KeyError for one that nobody has written."""
    return tuple(HELP[key].said() for key in keys)
