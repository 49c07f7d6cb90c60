"""Sums of documents that no sheet was frozen for: extra work, suppliers' bills, payments, open items."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import groupby
from typing import Any

from django.db import models
from django.db.models import F, OuterRef, Subquery, Sum
from pydantic import ValidationError

from catalogue.calc.money import ZERO
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.own_parts import as_charged
from quotes.calc.invoice.sums import line_net
from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.models import (
    Acceptance,
    ExtraWork,
    Invoice,
    OrderEvent,
    OrderLine,
    Payment,
    SupplierBill,
    WriteOff,
)
from quotes.queries.books.exact import exact
from quotes.queries.books.invoiced import still_asked

AT_ONCE = 500


def extra_work() -> Iterator[tuple[RecordFault, ...]]:
    rows = ExtraWork.objects.order_by("pk").annotate(
        decimals=F("build__revision__sheet__comparison__decimals")
    )
    fields = ("build__quote__number", "index", "lines", "net", "tax", "gross", "decimals")
    for number, index, lines, net, tax, gross, decimals in rows.values_list(*fields).iterator(
        chunk_size=AT_ONCE
    ):
        document = f"Extra work {number}/{index}"
        gross_is = Stated("gross", net + tax, gross)
        yield (*differing(document, gross_is), *_lines_come_to(document, lines, net, decimals))


def _lines_come_to(document: str, lines: Sequence[Any], net: Decimal, decimals: int) -> Iterator[RecordFault]:
    try:
        read = [as_charged(DraftLine.model_validate(line)) for line in lines]
    except ValidationError as error:
        yield RecordFault(document, "its lines", "lines that can be read", error.errors()[0]["msg"])
        return
    again = sum((line_net(line, decimals) for line in read), ZERO)
    yield from differing(document, Stated("net of its lines", again, net))


def orders() -> Iterator[tuple[RecordFault, ...]]:
    """An order is done where nothing of it is waited for, and only there."""
    events = OrderEvent.objects.filter(line=OuterRef("pk")).order_by().values("line")
    no_good = events.filter(kind__in=("damaged", "wrong")).annotate(sum=Sum("quantity")).values("sum")
    moved = events.exclude(kind="back_ordered").annotate(sum=Sum("quantity")).values("sum")
    lines = OrderLine.objects.annotate(no_good=Subquery(no_good), moved=Subquery(moved))
    fields = ("order__number", "order__done_at", "quantity", "no_good", "moved")
    rows = lines.order_by("order", "pk").values_list(*fields).iterator(chunk_size=AT_ONCE)
    for number, of_order in groupby(rows, key=lambda row: row[0]):
        told = list(of_order)
        done = all(exact(row[4]) == row[2] and not exact(row[3]) for row in told)
        yield tuple(differing(f"Order {number}", Stated("done", done, told[0][1] is not None)))


def invoiced_builds() -> Iterator[tuple[RecordFault, ...]]:
    """A build says that it is invoiced where an invoice of it stands, and only there."""
    of_build = (
        Invoice.objects.filter(build=OuterRef("pk")).order_by().values("build").annotate(sum=Sum("gross"))
    )
    sums = {kind: Subquery(of_build.filter(kind=kind).values("sum")) for kind in ("invoice", "credit_note")}
    rows = Acceptance.objects.annotate(**sums).order_by("pk")
    fields = ("quote__number", "invoiced_at", *sums)
    for number, at, asked, back in rows.values_list(*fields).iterator(chunk_size=AT_ONCE):
        yield tuple(
            differing(f"Build {number}", Stated("invoiced", still_asked(asked, back), at is not None))
        )


def bills() -> Iterator[tuple[RecordFault, ...]]:
    rows = SupplierBill.objects.order_by("pk").annotate(of_lines=Sum("lines__net"))
    fields = ("number", "net", "tax", "gross", "of_lines")
    for number, net, tax, gross, of_lines in rows.values_list(*fields).iterator(chunk_size=AT_ONCE):
        stated = Stated("net of its lines", exact(of_lines), net), Stated("gross", net + tax, gross)
        yield tuple(differing(f"Supplier bill {number}", *stated))


def payments_and_items() -> Iterator[tuple[RecordFault, ...]]:
    """What was taken or asked for is what the journal and the customer's account say it is."""
    entries = Payment.objects.exclude(key__startswith="opening ")
    yield from _same(entries, "Payment", "amount", "entries__total", "total of its entry")
    asked = Invoice.objects.exclude(item=None).exclude(kind="credit_note")
    yield from _same(asked, "Invoice", "due", "item__amount", "amount of its open item")
    given = Invoice.objects.filter(kind="credit_note").exclude(item=None)
    yield from _same(given, "Credit note", "due", "item__amount", "amount of its open item", sign=-1)
    off = WriteOff.objects.exclude(item=None)
    yield from _same(off, "Write-off", "amount", "item__amount", "amount of its open item", sign=-1)


def _same(
    rows: models.QuerySet[Any], name: str, stated: str, other: str, words: str, sign: int = 1
) -> Iterator[tuple[RecordFault, ...]]:
    fields = rows.order_by("pk").values_list("number", stated, other)
    for number, amount, found in fields.iterator(chunk_size=AT_ONCE):
        yield tuple(differing(f"{name} {number}", Stated(words, sign * amount, found)))
