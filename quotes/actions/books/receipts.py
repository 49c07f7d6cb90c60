"""The receipt of a payment: drawn at the first asking, and kept as the bytes that were made once."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from quotes.actions.books.drawing import PDF
from quotes.actions.storing import store_file
from quotes.calc.books.papers import PaymentReceipt
from quotes.models import Payment, StoredFile
from quotes.queries.books.receipts import receipt_of


def payment_receipt_file(*, payment: Payment) -> StoredFile:
    """The stored receipt, drawn now where that has not been done yet.

    Who comes second gets what the first has stored. It says what the payment had settled when it was drawn.
    """
    if payment.receipt is not None:
        return payment.receipt
    return _keep(payment, drawn_receipt(receipt_of(payment)))


def drawn_receipt(receipt: PaymentReceipt) -> bytes:
    """The receipt as PDF."""
    from quotes.documents.invoice.payments import payment_receipt_pdf  # takes a second to import

    return payment_receipt_pdf(receipt)


@transaction.atomic
def _keep(payment: Payment, content: bytes) -> StoredFile:
    row = Payment.objects.select_for_update(of=("self",)).select_related("receipt").get(pk=payment.pk)
    if row.receipt is None:
        row.receipt = store_file(
            name=f"{row.number}.pdf", content_type=PDF, content=content, now=timezone.now()
        )
        row.save(update_fields=["receipt"])
    payment.receipt = row.receipt
    return row.receipt
