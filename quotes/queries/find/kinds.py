"""The kinds of things that the box finds. One more kind is one more line here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db import models

from catalogue.calc.said import to_say
from catalogue.models import Part, Supplier
from quotes.models import (
    Booking,
    Customer,
    Engine,
    Enquiry,
    ExportBatch,
    Invoice,
    Job,
    JournalEntry,
    LifedPart,
    Payment,
    PurchaseOrder,
    Quote,
    SupplierBill,
    WorksOrder,
)

FOUND_BY = (
    to_say("caller"),
    to_say("customer"),
    to_say("email"),
    to_say("engine"),
    to_say("kind"),
    to_say("name"),
    to_say("number"),
    to_say("owner"),
    to_say("part number"),
    to_say("reference"),
    to_say("serial number"),
    to_say("shelf"),
    to_say("supplier"),
    to_say("tag"),
    to_say("telephone"),
    to_say("text"),
    to_say("their number"),
)
"""The words for what matched."""
OWNER_AND_ENGINE = ("customer__search_key", "engine__search_key")


@dataclass(frozen=True, slots=True)
class Kind:
    """`keys` hold folded text. `plain` hold numbers and marks. `named` is what it is called by.

    `told` are what is shown beside it, each with the word for what matched. `names` is a column with names
    that are not kept folded: there are few of them, so they are read and folded first.
    """

    title: str
    says: str
    page: str
    model: type[models.Model]
    named: str
    told: tuple[tuple[str, str], ...]
    keys: tuple[str, ...] = ()
    plain: tuple[str, ...] = ()
    names: str = ""
    before: tuple[str, ...] = ()
    numbered: bool = True
    """Whether `named` is a number, so that the very one typed leads straight there."""
    called: str = ""
    """What it is called where that column is empty."""
    by_customer: bool = False
    """Whether its key is the number of a customer, as in C-7."""
    by: str = "number"
    order: str = "-pk"
    many: bool = False
    """Whether there are so many that they are not sorted by how well they fit."""

    @property
    def rows(self) -> models.QuerySet[Any]:
        return self.model._default_manager.all()


KINDS = (
    Kind(
        "Customers",
        "by number (C-7), name, telephone or email",
        "customer",
        Customer,
        "name",
        (("telephone", "telephone"), ("email", "email")),
        keys=("search_key",),
        numbered=False,
        by_customer=True,
        by="name",
        order="name",
    ),
    Kind(
        "Engines",
        "by number or owner",
        "engine",
        Engine,
        "number",
        (("owner", "customer__name"),),
        keys=("search_key", "customer__search_key"),
        called=to_say("no number"),
    ),
    Kind(
        "Quotes",
        "by number, customer or engine",
        "quote",
        Quote,
        "number",
        (("customer", "customer__name"), ("engine", "engine__number")),
        keys=("search_key", *OWNER_AND_ENGINE),
        called=to_say("draft {key}"),
        order="-created_at",
        many=True,
    ),
    Kind(
        "Enquiries",
        "by number, caller, customer or engine",
        "enquiry",
        Enquiry,
        "number",
        (("caller", "caller"), ("customer", "customer__name"), ("engine", "engine__number")),
        keys=("search_key", *OWNER_AND_ENGINE),
    ),
    Kind(
        "Bookings",
        "by number, customer or engine",
        "booking",
        Booking,
        "number",
        (("customer", "enquiry__customer__name"), ("engine", "enquiry__engine__number")),
        keys=("enquiry__customer__search_key", "enquiry__engine__search_key"),
        plain=("number",),
    ),
    Kind(
        "Jobs on the bench",
        "by number, tag, shelf, customer or engine",
        "job",
        Job,
        "number",
        (("tag", "tag"), ("shelf", "shelf"), ("customer", "customer__name"), ("engine", "engine__number")),
        keys=OWNER_AND_ENGINE,
        plain=("number", "tag", "shelf"),
        many=True,
    ),
    Kind(
        "Invoices and credit notes",
        "by number, customer or engine",
        "invoice",
        Invoice,
        "number",
        (("customer", "customer__name"), ("engine", "build__quote__engine__number")),
        keys=("search_key", "customer__search_key", "build__quote__engine__search_key"),
        many=True,
    ),
    Kind(
        "Payments",
        "by number, reference or customer",
        "payment",
        Payment,
        "number",
        (("reference", "reference"), ("customer", "customer__name")),
        keys=("customer__search_key",),
        plain=("number", "reference"),
        many=True,
    ),
    Kind(
        "Suppliers' bills",
        "by our number, theirs or the supplier",
        "bill",
        SupplierBill,
        "number",
        (("supplier", "supplier"), ("their number", "supplier_number")),
        plain=("number", "supplier_number"),
        names="supplier",
    ),
    Kind(
        "Journal entries",
        "by number of the document",
        "journal-entry",
        JournalEntry,
        "number",
        (("text", "text"),),
        plain=("number",),
        many=True,
        # The document itself bears that number, and is what is meant by it.
        numbered=False,
    ),
    Kind(
        "Export batches",
        "by number",
        "export",
        ExportBatch,
        "number",
        (),
        plain=("number",),
    ),
    Kind(
        "Orders of parts",
        "by number or supplier",
        "order",
        PurchaseOrder,
        "number",
        (("supplier", "supplier_name"),),
        plain=("number",),
        names="supplier_name",
    ),
    Kind(
        "Machine work sent out",
        "by number or tag",
        "works-order",
        WorksOrder,
        "number",
        (("tag", "tag"),),
        plain=("number", "tag"),
    ),
    Kind(
        "Parts on the price list",
        "by part number or name",
        "catalogue:entry",
        Part,
        "code",
        (("name", "name"),),
        keys=("search_key",),
        before=("parts",),
        by="part number",
        order="place",
    ),
    Kind(
        "Suppliers",
        "by name",
        "catalogue:entry",
        Supplier,
        "name",
        (("kind", "kind"),),
        keys=("search_key",),
        before=("suppliers",),
        numbered=False,
        by="name",
        order="place",
    ),
    Kind(
        "Parts with an age of their own",
        "by serial number or owner",
        "lifed-part",
        LifedPart,
        "serial",
        (("owner", "owner__name"),),
        keys=("owner__search_key",),
        plain=("serial",),
        by="serial number",
    ),
)
