"""The files of a document that is being issued: drawn from its sheet, and kept with their fingerprints."""

from __future__ import annotations

import hashlib
from datetime import datetime
from typing import TYPE_CHECKING

from quotes.actions.books.refused import EInvoiceRefused
from quotes.calc.invoice.values import InvoiceSheet
from quotes.models import StoredFile

if TYPE_CHECKING:
    from quotes.documents.invoice import InvoiceFiles

PDF = "application/pdf"
XML = "application/xml"


def warm_up() -> None:
    """Import what draws, which takes a second, before any counter is locked."""
    import quotes.documents.invoice  # noqa: F401


def drawn(sheet: InvoiceSheet) -> InvoiceFiles:
    """PDF, and XML where the workshop's tax style has one.

    EInvoiceRefused with the rule that is broken and the field to mend.
    """
    from quotes.documents.invoice import EInvoiceFault, invoice_files

    try:
        return invoice_files(sheet)
    except EInvoiceFault as fault:
        raise EInvoiceRefused(fault.rule, fault.field, fault.text) from fault


def kept(name: str, content_type: str, content: bytes, now: datetime) -> StoredFile:
    """The bytes as they are served ever after."""
    file = StoredFile(
        name=name,
        content_type=content_type,
        sha256=hashlib.sha256(content).hexdigest(),
        content=content,
        made_at=now,
    )
    file.save(force_insert=True)
    return file
