"""What an export would hold, looked at before it is made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Count, Max, Min, Sum

from quotes.models import ExportBatch, JournalEntry, JournalLine, JournalSource
from quotes.queries.books.exact import exact


@dataclass(frozen=True, slots=True)
class SortHeld:
    """Entries of one sort."""

    name: str
    entries: int
    total: Decimal


@dataclass(frozen=True, slots=True)
class ExportLook:
    """Entries that no batch holds yet, with both sides added up. No days where there is nothing."""

    sorts: Sequence[SortHeld]
    first: date | None
    last: date | None
    lines: int
    debits: Decimal
    credits: Decimal

    @property
    def entries(self) -> int:
        return sum(sort.entries for sort in self.sorts)

    @property
    def balances(self) -> bool:
        return self.debits == self.credits


def export_look(first: date | None = None, last: date | None = None) -> ExportLook:
    """What is new in a period, both days included; everything new without one. Three queries."""
    entries = JournalEntry.objects.not_exported()
    if first:
        entries = entries.filter(on__gte=first)
    if last:
        entries = entries.filter(on__lte=last)
    counted = entries.order_by().values("source").annotate(held=Count("pk"), total=Sum("total"))
    days = entries.aggregate(first=Min("on"), last=Max("on"))
    lines = JournalLine.objects.filter(entry__in=entries.order_by())
    sides = lines.aggregate(lines=Count("pk"), debits=Sum("debit"), credits=Sum("credit"))
    return ExportLook(
        sorts=[
            SortHeld(str(JournalSource(row["source"]).label), row["held"], exact(row["total"]))
            for row in sorted(counted, key=lambda row: JournalSource.values.index(row["source"]))
        ],
        first=days["first"],
        last=days["last"],
        lines=sides["lines"],
        debits=exact(sides["debits"]),
        credits=exact(sides["credits"]),
    )


def last_batch() -> ExportBatch | None:
    """The latest batch, whatever became of it."""
    return ExportBatch.objects.defer("controls").first()
