"""Whether the workshop is empty, and whether sample data is in it."""

from __future__ import annotations

from quotes.models import (
    BankFile,
    Customer,
    CustomerFile,
    Engine,
    Enquiry,
    ExportBatch,
    Invoice,
    JournalEntry,
    LifedPart,
    PurchaseOrder,
    Quote,
    StoredFile,
    SupplierBill,
    Workshop,
)

BEFORE = "before-the-sample-data.json"
"""What was in the workshop before, kept as a file while the sample is there."""
OF_ONES_OWN = (
    Customer, Engine, Enquiry, Quote, Invoice, SupplierBill, JournalEntry, PurchaseOrder, LifedPart,
    CustomerFile, BankFile, ExportBatch,
)  # fmt: skip
"""With none of these there is nothing but settings and a price list."""


def is_empty() -> bool:
    return not any(model._default_manager.exists() for model in OF_ONES_OWN)


def is_loaded(workshop: Workshop | None = None) -> bool:
    """Only a workshop in the demo's style can hold it, so that any other is asked nothing."""
    shown = workshop or Workshop.objects.get_or_default()
    return bool(shown.demo_style) and StoredFile.objects.filter(name=BEFORE).exists()
