"""Parts found as one types, among those that suppliers list, beside one plain LIKE for each word.

What is typed is a number, a number with blanks, words in any order, and on PostgreSQL a word with an error.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from statistics import median
from time import perf_counter

from django.db import connection

from tests.bench_report.figure import Extra, Figure

NOW = datetime(2027, 2, 1, 9, 0, tzinfo=UTC)
PROMISED_S = 0.1
"""Any of them, among a hundred thousand."""
PAGE = 25
ROUNDS = 3


@dataclass(slots=True)
class Typed:
    """What is looked for, and how long each took."""

    texts: tuple[str, ...]
    took: dict[str, list[float]] = field(default_factory=dict)


def prepare(parts: int) -> Typed:
    from django.contrib.auth.models import User

    from catalogue.models import ListedPart, ListedPrice, PriceList
    from quotes.actions.years.listed import list_parts

    for model in (ListedPart, ListedPrice, PriceList):
        model._default_manager.all().delete()
    by, _ = User.objects.get_or_create(username="owner")
    list_parts(parts=parts, seed=1, by=by, now=NOW)
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("ANALYZE")
    some = ListedPart.objects.order_by("pk")[parts // 3]
    first, *words = some.search_key.split()
    texts = [some.number, f"{some.number[:2]} {some.number[2:6]}", f"{words[-1]} {words[0]}", first]
    if connection.vendor == "postgresql":
        texts.append(words[0][:2] + words[0][3:])
    return Typed(tuple(texts))


def ours(typed: Typed) -> None:
    from catalogue.calc.sought_parts import sought_parts
    from catalogue.queries.part_search import find_parts

    _each(typed, lambda text: find_parts(sought_parts(text)), keep=True)


def bare(typed: Typed) -> None:
    from catalogue.calc.search_key import search_key

    def like(text: str) -> object:
        words = search_key(text).split()
        where = " AND ".join(["search_key LIKE %s"] * len(words))
        with connection.cursor() as cursor:
            cursor.execute(
                f"SELECT * FROM catalogue_listedpart WHERE {where} ORDER BY search_key LIMIT {PAGE}",
                [f"%{word}%" for word in words],
            )
            return cursor.fetchall()

    _each(typed, like, keep=False)


def _each(typed: Typed, find: Callable[[str], object], *, keep: bool) -> None:
    for _ in range(ROUNDS):
        for text in typed.texts:
            began = perf_counter()
            find(text)
            if keep:
                typed.took.setdefault(text, []).append(perf_counter() - began)


def worst(typed: Typed) -> tuple[Extra, ...]:
    took = {text: median(each) for text, each in typed.took.items()}
    slowest = max(took, key=lambda text: took[text])
    return (Extra(f"at worst (“{slowest}”)", took[slowest], "s", PROMISED_S),)


SEARCH = Figure(
    name="search",
    what="parts found as one types, all that is typed three times",
    bare_is="one SELECT with a LIKE for each word",
    unit="listed parts",
    sizes=(1_000, 10_000, 100_000),
    prepare=prepare,
    ours=ours,
    bare=bare,
    more=worst,
    needs="catalogue",
    runs=3,
)
