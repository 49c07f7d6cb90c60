"""Every number given out, by its series, against the counters."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from django.db import models

from quotes.calc.record.fault import RecordFault
from quotes.calc.record.series import series_faults, sorted_into_series
from quotes.models import (
    Booking,
    Counter,
    Enquiry,
    ExportBatch,
    Invoice,
    Job,
    Payment,
    PaymentReminder,
    PurchaseOrder,
    Quote,
    Release,
    SupplierBill,
    WorksOrder,
    WriteOff,
)

AT_ONCE = 2000
SERIES: tuple[tuple[str, models.QuerySet[models.Model]], ...] = (
    ("B", Booking.objects.all()),
    ("C", Invoice.objects.filter(kind="credit_note")),
    ("D", Invoice.objects.filter(kind="deposit_invoice")),
    ("E", Enquiry.objects.all()),
    ("E", ExportBatch.objects.all()),
    ("I", Invoice.objects.filter(kind="invoice")),
    ("J", Job.objects.all()),
    ("L", Release.objects.all()),
    ("M", WorksOrder.objects.all()),
    ("N", PaymentReminder.objects.all()),
    ("P", PurchaseOrder.objects.all()),
    ("Q", Quote.objects.exclude(number=None)),
    ("R", Payment.objects.all()),
    ("S", SupplierBill.objects.all()),
    ("W", WriteOff.objects.all()),
)
"""Letter and documents of each series. Enquiries and export batches share one."""


def numbered() -> Iterator[tuple[RecordFault, ...]]:
    """What is wrong with each series, empty where nothing is; and each number that fits no series."""
    given, strange = sorted_into_series(chain.from_iterable(_numbers(*each) for each in SERIES))
    counters = {(row.kind, row.year): row.value for row in Counter.objects.all()}
    yield from ((fault,) for fault in strange)
    yield from series_faults(given, counters)


def _numbers(kind: str, rows: models.QuerySet[models.Model]) -> Iterator[tuple[str, str]]:
    numbers = rows.order_by().values_list("number", flat=True)
    return ((kind, number) for number in numbers.iterator(chunk_size=AT_ONCE))
