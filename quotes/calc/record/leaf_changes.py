"""What differs between two values as JSON holds them: leaf by leaf, or as a whole where that is too much."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from quotes.calc.record.kept_json import kept_fingerprint

MOST_LEAVES = 80
LONGEST = 4000
"""Characters of one value; a longer one is told of by its fingerprint."""
Pair = tuple[Any, Any]


def told_changes(field: str, before: Any, after: Any) -> dict[str, Pair]:
    """Before and after by path; None stands for what is not there."""
    if before == after:
        return {}
    if _parts(before) is None or _parts(after) is None:
        return {field: (in_short(before), in_short(after))}
    leaves = dict(_leaves(field, before, after))
    if len(leaves) > MOST_LEAVES:
        return {field: (in_short(before), in_short(after))}
    return leaves


def in_short(value: Any) -> Any:
    """The value, or the fingerprint of one that is too long to be told of."""
    if value is None or isinstance(value, bool | int | float) or len(str(value)) <= LONGEST:
        return value
    return f"{len(str(value)):,} characters, SHA-256 {kept_fingerprint(value)}"


def _parts(value: Any) -> dict[str, Any] | None:
    """The value by its keys or places; None for what has no parts."""
    if isinstance(value, dict):
        return value
    if isinstance(value, list):
        return {str(place): part for place, part in enumerate(value, start=1)}
    return None


def _leaves(path: str, before: Any, after: Any) -> Iterator[tuple[str, Pair]]:
    was, became = _parts(before), _parts(after)
    if was is None or became is None:
        if before != after:
            yield path, (in_short(before), in_short(after))
        return
    for key in [*was, *(key for key in became if key not in was)]:
        yield from _leaves(f"{path}.{key}", was.get(key), became.get(key))
