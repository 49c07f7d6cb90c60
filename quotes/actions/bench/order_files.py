"""The paper and the file of a purchase order, made when first asked for and kept as they were made."""

from __future__ import annotations

from typing import Literal

from django.db import transaction
from django.utils import timezone

from quotes.actions.files import PDF
from quotes.actions.storing import store_file
from quotes.calc.bench.parts.order_sheet import OrderSheet
from quotes.documents.bench.order import order_csv, order_pdf
from quotes.models import PurchaseOrder, StoredFile

CSV = "text/csv; charset=utf-8"


def order_file(*, order: PurchaseOrder, kind: Literal["pdf", "csv"]) -> StoredFile:
    """The stored paper or file of an order, made now where that has not been done yet."""
    kept: StoredFile | None = getattr(order, kind)
    if kept is not None:
        return kept
    sheet = OrderSheet.model_validate(order.sheet)
    content = order_pdf(sheet) if kind == "pdf" else order_csv(sheet)
    return _keep(order, kind, content)


@transaction.atomic
def _keep(order: PurchaseOrder, kind: Literal["pdf", "csv"], content: bytes) -> StoredFile:
    """Who comes second gets what the first has stored."""
    row = PurchaseOrder.objects.select_for_update(of=("self",)).select_related(kind).get(pk=order.pk)
    kept: StoredFile | None = getattr(row, kind)
    if kept is None:
        name, content_type = f"{row.number}.{kind}", PDF if kind == "pdf" else CSV
        kept = store_file(name=name, content_type=content_type, content=content, now=timezone.now())
        setattr(row, kind, kept)
        row.save(update_fields=[kind])
    return kept
