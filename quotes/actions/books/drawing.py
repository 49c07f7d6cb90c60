"""The files of a document that is being issued, drawn from its sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quotes.actions.books.refused import EInvoiceRefused
from quotes.calc.invoice.values import InvoiceSheet

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
