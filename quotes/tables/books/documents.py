"""Where the document of a journal entry is shown."""

from __future__ import annotations

from urllib.parse import quote

from django.urls import reverse

from quotes.models import JournalEntry, JournalSource

OF_A_BUILD = (JournalSource.STOCK, JournalSource.COST_OF_SALES, JournalSource.COST_TAKEN_BACK)
"""Their number is that of a build's quote: all that was booked on it is shown."""


def document_url(entry: JournalEntry) -> str:
    """The page of the document that an entry comes from; nothing for one that has no page."""
    for name, key in (
        ("invoice", entry.invoice_id),
        ("payment", entry.payment_id),
        ("bill", entry.bill_id),
    ):
        if key:
            return reverse(name, args=[key])
    if entry.write_off:
        return reverse("statement", args=[entry.write_off.customer_id])
    return f"{reverse('journal')}?build={quote(entry.number)}" if entry.source in OF_A_BUILD else ""
