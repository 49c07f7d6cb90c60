"""Drafts of invoices for lists and pages."""

from __future__ import annotations

from quotes.models import InvoiceDraft
from quotes.models.books.invoice import InvoiceDraftQuerySet


def open_drafts() -> InvoiceDraftQuerySet:
    """Drafts that are neither issued nor dropped, the latest first, with what a list shows of them."""
    return InvoiceDraft.objects.open().joined()
