"""Suppliers: who delivers parts, and who does machine work."""

from __future__ import annotations

from django.db import models

from catalogue.models.base import Entry, one_of, text_field
from catalogue.models.choices import SupplierKind


class Supplier(Entry):
    """A firm that the workshop orders from or sends work to."""

    name = models.CharField(max_length=200)
    kind = models.CharField(max_length=20, choices=SupplierKind)
    note = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            one_of("supplier", "kind", SupplierKind),
            models.UniqueConstraint(fields=["name"], name="supplier_name_once"),
        ]
