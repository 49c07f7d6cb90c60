"""What is drawn once for all tests of invoices: a page takes longer than all that is asked about it."""

from __future__ import annotations

import pytest

from quotes.documents.invoice import InvoiceFiles, invoice_files
from tests.documents.invoice.sheets import forty_lines, sales_invoice


@pytest.fixture(scope="session")
def forty() -> InvoiceFiles:
    """A hybrid invoice of forty lines with a deposit taken off, on A4."""
    return invoice_files(forty_lines())


@pytest.fixture(scope="session")
def sales() -> InvoiceFiles:
    """A plain invoice with state and county tax and a deposit by receipt, on Letter."""
    return invoice_files(sales_invoice())
