"""A person taken out of stored JSON: where a key names him, and wherever his words stand in a text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

PARTIES = frozenset({"customer", "buyer"})
"""Keys whose value is a name and address as printed."""
PEOPLE = frozenset({"signed_by", "said_by", "brought_by", "released_to", "authority_name", "terms_agreed_by"})
"""Keys whose value is the customer's, or somebody's who speaks for him."""
TOLD = frozenset({"telephone", "email", "right", "tax_registration"})
"""Keys beside a person's name that are emptied in the same value."""
SHORTEST = 4
"""Shorter words of his would be found in words that are nobody's."""


@dataclass(frozen=True, slots=True)
class Person:
    """Who is erased: what stands in his place, and the words by which he is known."""

    stands_in: str
    known: tuple[str, ...] = ()


def person(stands_in: str, *words: str) -> Person:
    """Name, telephone, email and each line of the address; what is too short to be his alone is left out."""
    lines = (" ".join(line.split()) for word in words for line in word.splitlines())
    known = {line for line in lines if len(line) >= SHORTEST and line != stands_in}
    return Person(stands_in, tuple(sorted(known, key=lambda line: (-len(line), line))))


def out_of_text(text: str, one: Person) -> str:
    """The text with his words replaced, whatever their case."""
    for word in one.known:
        text = re.sub(rf"(?<!\w){re.escape(word)}(?!\w)", lambda _: one.stands_in, text, flags=re.IGNORECASE)
    return text


def out_of_json(value: Any, one: Person) -> Any:
    """The value without him; numbers, codes and figures stay as they are."""
    if isinstance(value, str):
        return out_of_text(value, one)
    if isinstance(value, list):
        return [out_of_json(each, one) for each in value]
    if isinstance(value, dict):
        return {key: _of_key(key, each, one) for key, each in value.items()}
    return value


def _of_key(key: str, value: Any, one: Person) -> Any:
    if key in PARTIES and isinstance(value, dict):
        return _party(value, one)
    if key in PARTIES | PEOPLE and isinstance(value, str):
        return one.stands_in if value else value
    return out_of_json(value, one)


def _party(value: dict[str, Any], one: Person) -> dict[str, Any]:
    emptied: dict[str, Any] = dict.fromkeys(TOLD & value.keys(), "")
    if "lines" in value:
        emptied["lines"] = []
    return value | emptied | {"name": one.stands_in}
