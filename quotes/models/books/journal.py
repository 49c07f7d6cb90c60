"""The journal: balanced entries that point at their documents, the batches they left in, months closed."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from quotes.models.books.fields import sum_of_money
from quotes.models.frozen import Frozen, FrozenQuerySet


class JournalSource(models.TextChoices):
    INVOICE = "invoice", _("invoice")
    PAYMENT = "payment", _("payment")
    WRITE_OFF = "write_off", _("written off")
    BILL = "bill", _("supplier bill")
    BILL_PAYMENT = "bill_payment", _("supplier paid")
    STOCK = "stock", _("parts from stock")
    COST_OF_SALES = "cost_of_sales", _("cost of sales")
    COST_TAKEN_BACK = "cost_taken_back", _("back in work")
    OPENING = "opening", _("opening balance")
    OTHER = "other", _("other")


class JournalEntryQuerySet(FrozenQuerySet["JournalEntry"]):
    def not_exported(self) -> JournalEntryQuerySet:
        return self.filter(batch=None)

    def put_in(self, batch: ExportBatch) -> int:
        """Put those into a batch that are in none; how many. The only change that a posted entry sees."""
        return models.QuerySet.update(self.not_exported(), batch=batch)


class JournalEntry(Frozen):
    """One balanced entry; its lines are written with it, in one transaction, and never change."""

    LATER: ClassVar[frozenset[str]] = frozenset({"batch"})

    on = models.DateField(db_index=True)
    source = models.CharField(max_length=16, choices=JournalSource.choices)
    number = models.CharField(max_length=40)
    """Of the document."""
    party = models.CharField(max_length=200, blank=True, default="")
    text = models.CharField(max_length=300)
    invoice = models.ForeignKey("Invoice", models.PROTECT, null=True, blank=True, related_name="entries")
    payment = models.ForeignKey("Payment", models.PROTECT, null=True, blank=True, related_name="entries")
    write_off = models.ForeignKey("WriteOff", models.PROTECT, null=True, blank=True, related_name="entries")
    bill = models.ForeignKey("SupplierBill", models.PROTECT, null=True, blank=True, related_name="entries")
    total = sum_of_money()
    """Sum of the debits, which is that of the credits."""
    batch = models.ForeignKey("ExportBatch", models.PROTECT, null=True, blank=True, related_name="entries")
    posted_at = models.DateTimeField()
    posted_by = models.CharField(max_length=150)

    objects = JournalEntryQuerySet.as_manager()

    class Meta:
        ordering = ["on", "id"]
        indexes = [
            models.Index(fields=["on", "batch", "total"], name="journal_entry_by_day"),
            models.Index(fields=["on"], condition=Q(batch=None), name="journal_entry_not_exported"),
            models.Index(
                fields=["number"], opclasses=["varchar_pattern_ops"], name="journal_entry_by_number"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.source} {self.number}"


class JournalLineQuerySet(FrozenQuerySet["JournalLine"]):
    """Refuses change and deletion in bulk."""


class JournalLine(Frozen):
    """One side of an entry, with the account's code and name as they were when it was posted."""

    entry = models.ForeignKey(JournalEntry, models.PROTECT, related_name="lines")
    order = models.PositiveSmallIntegerField()
    role = models.CharField(max_length=32)
    account = models.CharField(max_length=20)
    account_name = models.CharField(max_length=80)
    debit = sum_of_money()
    credit = sum_of_money()
    text = models.CharField(max_length=300, blank=True, default="")
    tax_code = models.CharField(max_length=20, blank=True, default="")
    rate_pct = models.DecimalField(max_digits=7, decimal_places=4, null=True, blank=True)
    build = models.ForeignKey(
        "Acceptance", models.PROTECT, null=True, blank=True, related_name="journal_lines"
    )

    objects = JournalLineQuerySet.as_manager()

    class Meta:
        ordering = ["entry", "order"]
        indexes = [
            models.Index(
                fields=["account", "account_name", "role", "debit", "credit"], name="journal_line_sums"
            )
        ]
        constraints = [
            models.UniqueConstraint(fields=["entry", "order"], name="journal_line_order_once"),
            models.CheckConstraint(
                condition=Q(debit__gt=0, credit=0) | Q(debit=0, credit__gt=0) | Q(debit=0, credit=0),
                name="journal_line_has_one_side",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.account} {self.debit or -self.credit}"


class BatchState(models.TextChoices):
    WAITING = "waiting", _("being made")
    READY = "ready", _("ready")
    FAILED = "failed", pgettext_lazy("work", "failed")


class ExportBatchQuerySet(FrozenQuerySet["ExportBatch"]):
    """Refuses change and deletion in bulk."""

    def come_to(self, lines: int) -> int:
        """Note how far those that are not ready have come."""
        return models.QuerySet.update(self.exclude(state=BatchState.READY), lines_done=lines)


class ExportBatch(Frozen):
    """Entries handed to the accounts together: numbered, made once, the same bytes ever after.

    `controls` are the control totals that were checked before the files were offered.
    """

    LATER: ClassVar[frozenset[str]] = frozenset(
        {"state", "lines_done", "failed_because", "controls", "workbook", "csv", "ready_at"}
    )

    number = models.CharField(max_length=24, unique=True)
    first = models.DateField(null=True, blank=True)
    last = models.DateField(null=True, blank=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    made_at = models.DateTimeField()
    state = models.CharField(max_length=8, choices=BatchState.choices, default=BatchState.WAITING)
    entries_held = models.PositiveIntegerField()
    lines_held = models.PositiveIntegerField()
    lines_done = models.PositiveIntegerField(default=0)
    failed_because = models.CharField(max_length=300, blank=True, default="")
    controls = models.JSONField(default=dict, blank=True)
    ready_at = models.DateTimeField(null=True, blank=True)
    workbook = models.OneToOneField("StoredFile", models.PROTECT, null=True, blank=True, related_name="+")
    csv = models.OneToOneField("StoredFile", models.PROTECT, null=True, blank=True, related_name="+")

    objects = ExportBatchQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=~Q(state="ready") | Q(workbook__isnull=False, csv__isnull=False),
                name="export_batch_ready_has_files",
            )
        ]

    def __str__(self) -> str:
        return self.number


class MonthLockQuerySet(models.QuerySet["MonthLock"]):
    def standing(self) -> MonthLockQuerySet:
        return self.filter(opened_at=None)

    def holds(self, day: date) -> bool:
        """Whether that day's month is closed."""
        return self.standing().filter(month=day.replace(day=1)).exists()


class MonthLock(models.Model):
    """A month that is closed: nothing more is dated into it. The owner may open it again, in writing."""

    month = models.DateField()
    """Its first day."""
    locked_at = models.DateTimeField()
    locked_by = models.CharField(max_length=150)
    opened_at = models.DateTimeField(null=True, blank=True)
    opened_by = models.CharField(max_length=150, blank=True, default="")
    opened_because = models.CharField(max_length=300, blank=True, default="")

    objects = MonthLockQuerySet.as_manager()

    class Meta:
        ordering = ["-month", "-id"]
        constraints = [
            models.UniqueConstraint(fields=["month"], condition=Q(opened_at=None), name="month_locked_once")
        ]

    def __str__(self) -> str:
        return f"{self.month:%B %Y}"
