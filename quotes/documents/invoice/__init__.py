"""Invoices, credit notes and deposit invoices on paper, and the XML that the hybrid ones carry."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time

from django.template.loader import render_to_string

from quotes.calc.invoice.faults import EInvoiceFault
from quotes.calc.invoice.rules import MOST_DECIMALS, refuse_unfit_sheet
from quotes.calc.invoice.values import InvoiceSheet
from quotes.documents.invoice.cii import cii_xml
from quotes.documents.invoice.hybrid import hybrid_pdf
from quotes.documents.invoice.paper import invoice_context
from quotes.documents.invoice.payments import payment_receipt_pdf, statement_pdf
from quotes.documents.invoice.xsd import xsd_fault
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in

__all__ = [
    "EInvoiceFault",
    "InvoiceFiles",
    "invoice_files",
    "invoice_page",
    "payment_receipt_pdf",
    "statement_pdf",
]


@dataclass(frozen=True, slots=True)
class InvoiceFiles:
    """`xml` only where the workshop charges value-added tax; it is then in the PDF too.

    The standard has no amounts finer than two decimals, so that a currency with three gets a plain PDF.
    """

    pdf: bytes
    xml: bytes | None


def invoice_files(sheet: InvoiceSheet) -> InvoiceFiles:
    """Draw a document, the same bytes each time. EInvoiceFault names the rule and the field to mend."""
    if sheet.tax_style == "sales-tax" or sheet.decimals > MOST_DECIMALS:
        return InvoiceFiles(printed(*invoice_page(sheet)), None)
    refuse_unfit_sheet(sheet)
    xml = cii_xml(sheet)
    if fault := xsd_fault(xml):
        raise EInvoiceFault("XSD", "the electronic invoice", fault)
    html, style = invoice_page(sheet)
    return InvoiceFiles(hybrid_pdf(html, style, xml, datetime.combine(sheet.issued_on, time())), xml)


def invoice_page(sheet: InvoiceSheet) -> tuple[str, str]:
    """The page as HTML, and its style."""
    html = paper_in(sheet.language, "documents/invoice/invoice.html", lambda: invoice_context(sheet))
    style = f"@page {{ size: {sheet.paper}; }}\n{render_to_string('documents/paper.css')}"
    return html, style + render_to_string("documents/invoice/invoice.css")
