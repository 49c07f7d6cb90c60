"""Which rows bear the words typed: looked up in the small table that holds them, and once."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from operator import and_, or_
from typing import Any

from django.db.models import Q, QuerySet

MOST_KEYS = 1000
"""With more keys than this they are left to the database to find."""
IN_A_NUMBER = re.compile(r"[a-z]?[0-9]*")


def may_stand_in_a_number(word: str) -> bool:
    """Whether a folded word may be part of a document's number, with or without its dashes (Q-2026-0001)."""
    return IN_A_NUMBER.fullmatch(word) is not None


@dataclass(frozen=True, slots=True)
class Bearing:
    """The keys of the rows that bear each word; a query for them where they are many."""

    keys: tuple[Any, ...]

    @property
    def none_at(self) -> frozenset[int]:
        """The places of words that no row bears."""
        return frozenset(place for place, keys in enumerate(self.keys) if keys == [])


def bearing(rows: QuerySet[Any], words: Sequence[str]) -> Bearing:
    """By the rows' `search_key`; one query."""
    if not words:
        return Bearing(())
    holds = [Q(search_key__contains=word) for word in words]
    seen = list(rows.filter(reduce(or_, holds)).order_by().values_list("pk", "search_key")[: MOST_KEYS + 1])
    if len(seen) > MOST_KEYS:
        return Bearing(tuple(rows.filter(hold).values("pk") for hold in holds))
    return Bearing(tuple([pk for pk, key in seen if word in key] for word in words))


def every_word(words: Sequence[str], by: dict[str, Bearing], else_by: Sequence[Q | None]) -> Q:
    """That each word stands in a row one of these columns leads to, or, by its place, in `else_by`.

    Words that only one column can bear are brought together before: few keys are left to look for.
    """
    wanted: list[Q] = []
    alone: dict[str, list[set[int]]] = {column: [] for column in by}
    for place in range(len(words)):
        bears = {column: found.keys[place] for column, found in by.items() if place not in found.none_at}
        other = else_by[place]
        only = next(iter(bears)) if len(bears) == 1 and other is None else ""
        if only and isinstance(bears[only], list):
            alone[only].append(set(bears[only]))
            continue
        ways = [Q(**{f"{column}__in": keys}) for column, keys in bears.items()]
        wanted.append(reduce(or_, [*ways, *([] if other is None else [other])], Q(pk__in=[])))
    together = [Q(**{f"{column}__in": set.intersection(*sets)}) for column, sets in alone.items() if sets]
    return reduce(and_, [*together, *wanted], Q())
