"""The place of an issued document on its customer's account."""

from __future__ import annotations

from datetime import datetime

from django.db import transaction

from catalogue.calc.money import ZERO
from quotes.actions.books.allocating import locked, settle
from quotes.models import Invoice, InvoiceKind, ItemKind, OpenItem


@transaction.atomic
def open_invoice_item(*, invoice: Invoice, now: datetime) -> OpenItem:
    """Put an issued document on the account of its customer; called where it is issued, a second time not.

    A credit note settles its original at once as far as that is open. What is left of it stays in credit. An
    invoice whose deposits were larger than itself is in credit from the start.
    """
    amount = -invoice.due if invoice.kind == InvoiceKind.CREDIT else invoice.due
    original = invoice.original
    held = locked([original.item.pk]) if original else {}
    item = OpenItem.objects.create(
        customer=invoice.customer,
        kind=ItemKind(invoice.kind),
        number=invoice.number,
        on=invoice.issued_on,
        due_on=invoice.due_on,
        amount=amount,
        open_amount=amount,
        invoice=invoice,
    )
    for debit in held.values():
        share = min(debit.open_amount, -amount)
        if share > ZERO and debit.customer_id == item.customer_id:
            settle(item, debit, share, on=invoice.issued_on, by=invoice.issued_by, now=now)
    return item
