"""Invoices, credit notes and deposit invoices: a draft that may change, then a row that never does."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.books.fields import net_and_tax_are_gross, sum_of_money
from quotes.models.frozen import Frozen, FrozenQuerySet


class InvoiceKind(models.TextChoices):
    DEPOSIT = "deposit_invoice", _("deposit invoice")
    INVOICE = "invoice", _("invoice")
    CREDIT = "credit_note", _("credit note")


class InvoiceDraftQuerySet(models.QuerySet["InvoiceDraft"]):
    def open(self) -> InvoiceDraftQuerySet:
        """Neither issued nor dropped."""
        return self.filter(issued_on=None, dropped_at=None)

    def joined(self) -> InvoiceDraftQuerySet:
        return self.select_related("customer", "build__quote__engine", "original")


class InvoiceDraft(models.Model):
    """`content` is `quotes.calc.invoice.draft.Draft` as JSON; `customer` is who pays.

    `version` counts its changes, so that two people who edit at once find out.
    """

    kind = models.CharField(max_length=16, choices=InvoiceKind.choices)
    customer = models.ForeignKey("Customer", models.PROTECT, related_name="invoice_drafts")
    build = models.ForeignKey(
        "Acceptance", models.PROTECT, null=True, blank=True, related_name="invoice_drafts"
    )
    original = models.ForeignKey("Invoice", models.PROTECT, null=True, blank=True, related_name="+")
    """What a credit note takes back."""
    content = models.JSONField()
    supplied_on = models.DateField(null=True, blank=True)
    version = models.PositiveIntegerField(default=1)
    started_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    started_at = models.DateTimeField()
    edited_by = models.CharField(max_length=150, blank=True, default="")
    edited_at = models.DateTimeField()
    dropped_at = models.DateTimeField(null=True, blank=True)
    issued_on = models.DateField(null=True, blank=True, editable=False)
    """The day of the document that came of it, kept here too so that the list is sorted by an index."""

    objects = InvoiceDraftQuerySet.as_manager()

    class Meta:
        ordering = ["-started_at", "-id"]
        indexes = [
            # Day and key stand in it so that drafts are counted, found and sorted without their content.
            models.Index(
                fields=["customer", "build", "dropped_at", "issued_on", "id"],
                condition=Q(dropped_at=None),
                name="draft_in_list",
            ),
            models.Index(
                fields=["issued_on", "id", "dropped_at"], condition=Q(dropped_at=None), name="draft_by_day"
            ),
        ]
        constraints = [
            models.CheckConstraint(
                condition=(Q(kind="credit_note") & Q(original__isnull=False))
                | (~Q(kind="credit_note") & Q(original=None)),
                name="draft_credit_note_has_original",
            ),
            models.CheckConstraint(
                condition=~Q(kind="deposit_invoice") | Q(build__isnull=False),
                name="draft_deposit_has_build",
            ),
        ]

    def __str__(self) -> str:
        return f"draft {self.get_kind_display()} {self.pk}"


class InvoiceQuerySet(FrozenQuerySet["Invoice"]):
    def joined(self) -> InvoiceQuerySet:
        return self.select_related("customer", "build__quote__engine", "original", "item")

    def of_build(self, build_id: int) -> InvoiceQuerySet:
        return self.filter(build_id=build_id)


class Invoice(Frozen):
    """An issued document. `sheet` is `quotes.calc.invoice.values.InvoiceSheet` as JSON.

    Sums are those of the sheet, for lists and constraints; the signs of a credit note are positive here too.
    """

    kind = models.CharField(max_length=16, choices=InvoiceKind.choices)
    number = models.CharField(max_length=24, unique=True)
    customer = models.ForeignKey("Customer", models.PROTECT, related_name="invoices")
    build = models.ForeignKey("Acceptance", models.PROTECT, null=True, blank=True, related_name="invoices")
    original = models.ForeignKey("self", models.PROTECT, null=True, blank=True, related_name="credit_notes")
    draft = models.OneToOneField("InvoiceDraft", models.PROTECT, related_name="invoice")
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    issued_on = models.DateField(db_index=True)
    issued_at = models.DateTimeField()
    issued_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    due_on = models.DateField(null=True, blank=True)
    currency = models.CharField(max_length=3)
    net = sum_of_money()
    tax = sum_of_money()
    gross = sum_of_money()
    prepaid = sum_of_money()
    due = sum_of_money()
    consent = models.CharField(max_length=300, blank=True, default="")
    """The owner's word for asking for more than was accepted."""
    earlier_because = models.CharField(max_length=300, blank=True, default="")
    """The owner's word for an earlier day than that of the document before it."""
    search_key = models.CharField(max_length=60, editable=False, blank=True, default="", db_index=True)
    pdf = models.OneToOneField("StoredFile", models.PROTECT, related_name="+")
    xml = models.OneToOneField("StoredFile", models.PROTECT, null=True, blank=True, related_name="+")

    objects = InvoiceQuerySet.as_manager()

    class Meta:
        ordering = ["-issued_at", "-id"]
        indexes = [
            models.Index(fields=["build", "kind"], name="invoice_of_build"),
            models.Index(fields=["draft", "issued_on"], name="invoice_of_draft"),
            models.Index(fields=["search_key", "draft", "customer", "build"], name="invoice_found"),
        ]
        constraints = [
            net_and_tax_are_gross("invoice_net_and_tax_are_gross"),
            models.CheckConstraint(
                condition=(Q(kind="credit_note") & Q(original__isnull=False))
                | (~Q(kind="credit_note") & Q(original=None)),
                name="invoice_credit_note_has_original",
            ),
            models.CheckConstraint(condition=~Q(number=""), name="invoice_has_number"),
        ]

    def __str__(self) -> str:
        return self.number
