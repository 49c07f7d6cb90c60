"""The rows of a quote with all that came of it, read as the database holds them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import datetime

from django.db import models
from django.db.models import Q

from quotes.models import (
    Acceptance,
    Allocation,
    Invoice,
    InvoiceDraft,
    Job,
    JobStep,
    JournalEntry,
    JournalLine,
    OpenItem,
    OrderEvent,
    OrderLine,
    Payment,
    PurchaseOrder,
    Quote,
    Reply,
    Revision,
    StoredFile,
)

BY_QUOTE: tuple[tuple[type[models.Model], str], ...] = (
    (Revision, "quote"),
    (Reply, "revision__quote"),
    (Acceptance, "quote"),
    (Job, "quote"),
    (JobStep, "job__quote"),
    (PurchaseOrder, "lines__build__quote"),
    (OrderLine, "order__lines__build__quote"),
    (OrderEvent, "line__order__lines__build__quote"),
    (InvoiceDraft, "build__quote"),
    (Invoice, "build__quote"),
    (OpenItem, "invoice__build__quote"),
    (JournalEntry, "invoice__build__quote"),
    (JournalLine, "entry__invoice__build__quote"),
)
"""Tables of a quote's rows, and the way from each to the quote."""
BY_PAYMENT: tuple[tuple[type[models.Model], str], ...] = (
    (Payment, "pk"),
    (OpenItem, "payment"),
    (Allocation, "credit__payment"),
    (JournalEntry, "payment"),
    (JournalLine, "entry__payment"),
)


def rows_of(quote: Quote) -> list[models.Model]:
    """Every row of it, as the database holds it now; what others lead to comes first."""
    found = [*Quote.objects.filter(pk=quote.pk)]
    rows: list[models.Model] = [*found]
    for model, way in BY_QUOTE:
        rows += model._default_manager.filter(**{way: quote}).order_by("pk").distinct()
    for payment in Payment.objects.filter(item__settles__debit__invoice__build__quote=quote):
        for model, way in BY_PAYMENT:
            rows += model._default_manager.filter(**{way: payment.pk}).order_by("pk")
    return [*_files(rows), *rows]


def numbers_in(rows: list[models.Model]) -> Iterator[tuple[str, datetime]]:
    """Each number that was given out, and the day it is of."""
    days: Mapping[type[models.Model], Callable[[models.Model], datetime]] = {
        Quote: lambda row: row.created_at,  # type: ignore[attr-defined]
        Job: lambda row: row.received_at,  # type: ignore[attr-defined]
        PurchaseOrder: lambda row: row.ordered_at,  # type: ignore[attr-defined]
        Invoice: lambda row: row.issued_at,  # type: ignore[attr-defined]
        Payment: lambda row: row.taken_at,  # type: ignore[attr-defined]
    }
    for row in rows:
        if type(row) in days and (number := getattr(row, "number", None)):
            yield number, days[type(row)](row)


def _files(rows: list[models.Model]) -> list[models.Model]:
    keys = {
        getattr(row, name)
        for row in rows
        for name in ("pdf_id", "xml_id", "receipt_id")
        if hasattr(row, name)
    }
    return [*StoredFile.objects.filter(Q(pk__in=keys - {None})).order_by("pk")]
