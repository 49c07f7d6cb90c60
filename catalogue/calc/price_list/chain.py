"""Numbers that took one another's place, followed to the last of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from catalogue.calc.price_list.listed import Listed, number_key


def successors(rows: Iterable[Listed]) -> dict[str, str]:
    """The key of the next number by the key of the one that it took the place of."""
    return {row.key: number_key(row.superseded_by) for row in rows if row.superseded_by}


def last_of(key: str, nexts: Mapping[str, str]) -> str:
    """The number at the end of the chain that begins with `key`; `key` itself where it goes in a circle."""
    seen, at = {key}, key
    while at in nexts:
        at = nexts[at]
        if at in seen:
            return key
        seen.add(at)
    return at


def in_circle(nexts: Mapping[str, str]) -> frozenset[str]:
    """Numbers that in the end are said to take their own place."""
    found: set[str] = set()
    for key in nexts:
        seen, at = {key}, nexts[key]
        while at in nexts and at not in seen:
            seen.add(at)
            at = nexts[at]
        if at == key:
            found.add(key)
    return frozenset(found)
