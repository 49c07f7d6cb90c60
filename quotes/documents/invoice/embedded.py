"""Takes the XML out of a hybrid invoice that somebody hands in."""

from __future__ import annotations

from io import BytesIO

from quotes.documents.invoice.einvoice_check import NotAnInvoice
from quotes.documents.invoice.hybrid import NAME


def embedded_xml(pdf: bytes) -> bytes:
    """The attachment by the name that the standard gives it. NotAnInvoice where there is none."""
    from pypdf import PdfReader  # a third of a second of import, which only this command needs
    from pypdf.errors import PyPdfError

    try:
        attached = PdfReader(BytesIO(pdf)).attachments
        if NAME not in attached:
            raise NotAnInvoice(f"is a PDF without {NAME} in it")
        return attached[NAME][0]
    except (PyPdfError, OSError, ValueError) as error:
        raise NotAnInvoice(f"is no PDF that can be read: {error}") from None
