"""Where the document of a journal entry is shown."""

from __future__ import annotations

from django.urls import reverse

from quotes.models import JournalEntry


def document_url(entry: JournalEntry) -> str:
    """The page of the document that an entry comes from; nothing for one that has no page."""
    for name, key in (
        ("invoice", entry.invoice_id),
        ("payment", entry.payment_id),
        ("bill", entry.bill_id),
    ):
        if key:
            return reverse(name, args=[key])
    return reverse("statement", args=[entry.write_off.customer_id]) if entry.write_off else ""
