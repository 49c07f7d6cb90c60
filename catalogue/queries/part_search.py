"""Parts found as one types: those of the catalogue, and the hundred thousands that suppliers list.

Rows are found by their keys in the order of an index and only then read, so that a search over many stops
when a page is full. Typing errors are forgiven where PostgreSQL has trigrams, and only where nothing fits.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from django.db import connection, transaction
from django.db.models import F, Q, QuerySet, Value

from catalogue.calc.sought_parts import SoughtParts
from catalogue.models import ListedPart, Offer, Part

MOST_PARTS = 10
MOST_LISTED = 25
SHORTEST_NUMBER = 3
LIKE_ENOUGH = 0.28
"""How much of a word's trigrams must stand in a part's key: in six letters two may have changed places."""


@dataclass(frozen=True, slots=True)
class PartsFound:
    """`forgiven` says that nothing fits as it was typed, and these come close."""

    parts: tuple[Part, ...]
    listed: tuple[ListedPart, ...]
    more: bool = False
    forgiven: bool = False

    @property
    def many(self) -> int:
        return len(self.parts) + len(self.listed)

    @property
    def any(self) -> bool:
        return self.many > 0


NONE = PartsFound((), ())


def find_parts(sought: SoughtParts, supplier: str = "") -> PartsFound:
    """What bears every word, or the number; of a supplier alone where one is named."""
    if not sought.is_enough:
        return NONE
    parts = () if supplier else tuple(_parts(sought))
    rows = ListedPart.objects.filter(supplier=supplier) if supplier else ListedPart.objects.all()
    keys = _numbered(rows, sought)
    if len(keys) <= MOST_LISTED:
        worded = _worded(rows, sought.words).exclude(pk__in=keys).order_by("search_key", "pk")
        keys += worded.values_list("pk", flat=True)[: MOST_LISTED + 1 - len(keys)]
    if parts or keys or not knows_trigrams():
        return PartsFound(parts, _read(keys[:MOST_LISTED]), more=len(keys) > MOST_LISTED)
    return PartsFound((), _read(_close(rows, sought)), forgiven=True)


@cache
def knows_trigrams() -> bool:
    """Whether the database forgives typing errors; looked up once."""
    if connection.vendor != "postgresql":
        return False
    with connection.cursor() as cursor:
        cursor.execute("SELECT EXISTS (SELECT FROM pg_extension WHERE extname = 'pg_trgm')")
        return bool(cursor.fetchone()[0])


def _parts(sought: SoughtParts) -> QuerySet[Part]:
    """Of the catalogue, also by the number of a supplier."""
    offers = Offer.objects.exclude(number="").filter(number__icontains=sought.typed).values("part")
    wanted = Q()
    for word in sought.words:
        wanted &= Q(search_key__contains=word)
    rows = Part.objects.select_related("engine_type").filter(wanted | Q(pk__in=offers))
    return rows.order_by("engine_type__place", "place", "pk")[:MOST_PARTS]


def _numbered(rows: QuerySet[ListedPart], sought: SoughtParts) -> list[int]:
    """Whose number is what was typed, and then those that begin so."""
    if len(sought.number) < SHORTEST_NUMBER:
        return []
    begins = rows.filter(number_key__startswith=sought.number).order_by("number_key", "pk")
    return list(begins.values_list("pk", flat=True)[: MOST_LISTED + 1])


def _worded(rows: QuerySet[ListedPart], words: tuple[str, ...]) -> QuerySet[ListedPart]:
    for word in words:
        rows = rows.filter(search_key__contains=word)
    return rows


def _close(rows: QuerySet[ListedPart], sought: SoughtParts) -> list[int]:
    """Whose key holds something like every word, the likest first."""
    from django.contrib.postgres.lookups import TrigramWordSimilar
    from django.contrib.postgres.search import TrigramWordSimilarity

    for word in sought.words:
        rows = rows.filter(TrigramWordSimilar(F("search_key"), Value(word)))
    likeness: Any = TrigramWordSimilarity(" ".join(sought.words), "search_key")
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("SELECT set_config('pg_trgm.word_similarity_threshold', %s, true)", [str(LIKE_ENOUGH)])
        likest = rows.order_by(likeness.desc(), "search_key", "pk")
        return list(likest.values_list("pk", flat=True)[:MOST_LISTED])


def _read(keys: list[int]) -> tuple[ListedPart, ...]:
    """The rows of these keys, in their order."""
    rows = ListedPart.objects.select_related("supplier").in_bulk(keys)
    return tuple(rows[key] for key in keys if key in rows)
