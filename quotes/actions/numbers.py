"""Numbers without a gap: taken from a locked counter inside the transaction that uses them."""

from __future__ import annotations

from django.db import transaction

from quotes.models import Counter


def next_number(*, kind: str, year: int) -> str:
    """The next number of a series, such as Q-2026-0001; I-00001 of one that goes through the years (0).

    Must run inside the issuing transaction: the counter stays locked until that ends, and falls back
    with it. RuntimeError outside one.
    """
    if not transaction.get_connection().in_atomic_block:
        raise RuntimeError("A number is only given inside the transaction that uses it.")
    Counter.objects.get_or_create(kind=kind, year=year)
    counter = Counter.objects.select_for_update().get(kind=kind, year=year)
    counter.value += 1
    counter.save(update_fields=["value"])
    return f"{kind}-{year}-{counter.value:04}" if year else f"{kind}-{counter.value:05}"
